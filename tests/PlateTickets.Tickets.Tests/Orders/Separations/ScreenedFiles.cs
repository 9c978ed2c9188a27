using PlateTickets.Tests.Shared;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

/// <summary>A screened page by Ghostscript in two sizes, and what libtiff and ImageMagick make of it. No side is a multiple of 8, nothing is symmetric.</summary>
public sealed class ScreenedFiles : IDisposable
{
    public ScreenedFiles()
    {
        Folder = Directory.CreateTempSubdirectory("screened-").FullName;
        // 541 x 365 pixels: a pixel of the preview is one of the image. 2705 x 1825: three. 8475 x 5718: sixteen, counted by bytes.
        Small = Page("small", "tiffg4", 300);
        Middle = Page("middle", "tiffg4", 1500);
        Large = Page("large", "tiffg4", 4700);
        SmallSeen = SeenByImageMagick.Read(Small);
        LargeSeen = SeenByImageMagick.Read(Large);
    }

    public string Folder { get; }

    internal SeenByImageMagick SmallSeen { get; }

    internal SeenByImageMagick LargeSeen { get; }

    public string Small { get; }

    public string Middle { get; }

    public string Large { get; }

    public string Page(string name, string device, int ppi, params IEnumerable<string> options)
    {
        var page = Path.Combine(Folder, "page.ps");
        File.WriteAllText(page, """
            %!PS-Adobe-3.0
            << /PageSize [129.84 87.6] >> setpagedevice
            << /HalftoneType 1 /Frequency 60 /Angle 31 /SpotFunction { 180 mul cos exch 180 mul cos add 2 div } >> sethalftone
            0 1 9 { /i exch def i 10 div 0.05 add setgray 12 i 10 mul add 30 10 40 rectfill } for
            0 setgray 12 8 70 4 rectfill 90 70 5 9 rectfill 60 72 0.3 setlinewidth moveto 110 76 lineto stroke
            /Helvetica findfont 9 scalefont setfont 14 16 moveto (Plate 7) show
            showpage
            """);
        var file = Path.Combine(Folder, name + ".tif");
        Tool.Run("ghostscript", "gs", ["-q", "-dSAFER", "-dBATCH", "-dNOPAUSE", $"-sDEVICE={device}", $"-r{ppi}", .. options, $"-sOutputFile={file}", page]);
        return file;
    }

    /// <summary>A copy by libtiff's tiffcp.</summary>
    public string Copy(string from, string name, params IEnumerable<string> options)
    {
        var file = Path.Combine(Folder, name + ".tif");
        Tool.Run("libtiff-tools", "tiffcp", [.. options, from, file]);
        return file;
    }

    /// <summary>Sets a tag in place by libtiff's tiffset.</summary>
    public static string Tag(string file, params IEnumerable<string> tag)
    {
        Tool.Run("libtiff-tools", "tiffset", ["-s", .. tag, file]);
        return file;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
