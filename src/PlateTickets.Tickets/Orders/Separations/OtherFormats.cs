namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>Names what a file is when it is no TIFF.</summary>
internal static class OtherFormats
{
    private static readonly (byte[] Start, string Name)[] Known =
    [
        ("%PDF"u8.ToArray(), "a PDF"),
        ("%!PS"u8.ToArray(), "a PostScript or EPS file"),
        ([0xC5, 0xD0, 0xD3, 0xC6], "an EPS file"),
        ([0x89, 0x50, 0x4E, 0x47], "a PNG image"),
        ([0xFF, 0xD8, 0xFF], "a JPEG image"),
        ("GIF8"u8.ToArray(), "a GIF image"),
        ("BM"u8.ToArray(), "a bitmap image"),
        ("PK"u8.ToArray(), "a zip package"),
        ("8BPS"u8.ToArray(), "a layered image"),
        ("<?xml"u8.ToArray(), "an XML file"),
    ];

    public static SeparationException Refuse(Stream stream, string fileName)
    {
        if (stream.Length == 0)
        {
            return new SeparationException(SeparationFault.NotTiff, $"{fileName} is empty. Send it again.");
        }

        Span<byte> head = stackalloc byte[8];
        stream.Position = 0;
        var got = stream.ReadAtLeast(head, head.Length, throwOnEndOfStream: false);
        var name = "not a TIFF file";
        foreach (var (start, known) in Known)
        {
            if (got >= start.Length && head[..start.Length].SequenceEqual(start))
            {
                name = $"{known}, not a TIFF file";
                break;
            }
        }

        return new SeparationException(SeparationFault.NotTiff, $"{fileName} is {name}. Send each colour as a one-bit TIFF.");
    }
}
