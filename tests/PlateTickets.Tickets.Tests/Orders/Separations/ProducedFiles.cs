using PlateTickets.Tests.Shared;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

/// <summary>Real separations from producers that are not ours, made once for all tests of a class.</summary>
public sealed class ProducedFiles : IDisposable
{
    public const double WidthMm = 120;
    public const double HeightMm = 80;
    public const int Ppi = 600;

    public ProducedFiles()
    {
        Folder = Directory.CreateTempSubdirectory("produced-").FullName;
        Ghostscript = GhostscriptJob.Make(Folder, "job", WidthMm, HeightMm, Ppi);
        Uncompressed = GhostscriptJob.Make(Path.Combine(Folder, "none"), "job", WidthMm, HeightMm, Ppi, "none");
        Cyan = Ghostscript.Single(f => f.EndsWith("(Cyan).tif", StringComparison.Ordinal));
    }

    public string Folder { get; }

    public string[] Ghostscript { get; }

    public string[] Uncompressed { get; }

    /// <summary>The cyan of the G4 set.</summary>
    public string Cyan { get; }

    /// <summary>A copy by libtiff's tiffcp with its options.</summary>
    public string Copy(string name, params IEnumerable<string> options)
    {
        var file = Path.Combine(Folder, name);
        Tool.Run("libtiff-tools", "tiffcp", [.. options, Cyan, file]);
        return file;
    }

    /// <summary>A copy with a tag set by libtiff's tiffset.</summary>
    public string WithTag(string name, params IEnumerable<string> tag)
    {
        var file = Copy(name, "-c", "g4");
        Tool.Run("libtiff-tools", "tiffset", [.. tag, file]);
        return file;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
