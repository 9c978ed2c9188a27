using System.Globalization;

namespace PlateTickets.Tests.Shared;

/// <summary>
/// One-bit separations from a producer that is not ours: Ghostscript's tiffsep1 device on a PostScript page of our own,
/// with the four process colours and a spot colour.
/// </summary>
internal static class GhostscriptJob
{
    public const string Spot = "Harvest Orange";

    /// <summary>Writes one file for each colour into the folder and returns their paths. The page is given in mm.</summary>
    /// <param name="folder">Where the files go.</param>
    /// <param name="name">The start of their names.</param>
    /// <param name="widthMm">Across.</param>
    /// <param name="heightMm">Around.</param>
    /// <param name="ppi">Resolution.</param>
    /// <param name="compression">A name that the device knows: g4, none, lzw, pack, g3, crle.</param>
    public static string[] Make(string folder, string name, double widthMm, double heightMm, int ppi = 600, string compression = "g4")
    {
        Directory.CreateDirectory(folder);
        var page = Path.Combine(folder, name + ".ps");
        var (width, height) = (Points(widthMm), Points(heightMm));
        File.WriteAllText(page, $"""
            %!PS-Adobe-3.0
            << /PageSize [{width} {height}] >> setpagedevice
            /box [ 20 20 200 200 ] def
            1 0 0 0 setcmykcolor 40 40 150 220 rectfill
            0 1 0 0 setcmykcolor 140 140 150 220 rectfill
            0 0 1 0 setcmykcolor 220 240 150 220 rectfill
            0 0 0 1 setcmykcolor /Helvetica findfont 48 scalefont setfont 60 520 moveto (PLATE) show
            [/Separation ({Spot}) /DeviceCMYK {"{"} dup 0 mul exch dup 0.6 mul exch dup 0.9 mul exch 0 mul {"}"}] setcolorspace
            0.5 setcolor 190 340 150 220 rectfill
            showpage
            """);
        Tool.Run(
            "ghostscript", "gs", "-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", "-sDEVICE=tiffsep1", $"-r{ppi}", $"-sCompression={compression}",
            $"-sOutputFile={Path.Combine(folder, name)}-%02d.tif", page);
        File.Delete(page);
        var files = Directory.GetFiles(folder, name + "-*.tif");
        return files.Length == 5 ? files : throw new InvalidOperationException($"Ghostscript wrote {files.Length} separations instead of 5.");
    }

    private static string Points(double mm) => (mm / 25.4 * 72).ToString("0.####", CultureInfo.InvariantCulture);
}
