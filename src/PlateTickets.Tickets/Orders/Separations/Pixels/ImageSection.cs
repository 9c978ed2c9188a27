namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>A strip, a tile, or a part of a strip that can be read by itself.</summary>
/// <param name="Offset">Its first byte in the file.</param>
/// <param name="Bytes">Its length there.</param>
/// <param name="X">Its place in the image.</param>
/// <param name="Y">Its first line.</param>
/// <param name="Lines">Lines of the image in it.</param>
/// <param name="Coded">Pixels of a line as they are stored.</param>
/// <param name="Pixels">Pixels of a line that lie in the image; a tile may reach beyond it.</param>
internal readonly record struct ImageSection(long Offset, long Bytes, int X, int Y, int Lines, int Coded, int Pixels)
{
    private const int PartBytes = 1 << 20;

    /// <summary>All sections in the order of their table, which is read along the way.</summary>
    public static IEnumerable<ImageSection> Of(TiffFile tiff, TiffDirectory image, ImageShape shape, bool plain)
    {
        return image.Has(322) ? Tiles(tiff, image, shape) : Strips(tiff, image, shape, plain);
    }

    private static IEnumerable<ImageSection> Strips(TiffFile tiff, TiffDirectory image, ImageShape shape, bool plain)
    {
        var lines = (int)Math.Min(image.Number(278, uint.MaxValue), shape.Height);
        // Uncompressed lines lie where they lie: a long strip is read in parts, by several threads.
        var lineBytes = (shape.Width + 7) / 8;
        var part = plain ? Math.Max(1, PartBytes / lineBytes) : lines;
        var y = 0;
        foreach (var (offset, bytes) in Table(tiff, image, 273, 279))
        {
            var here = Math.Min(lines, shape.Height - y);
            for (var line = 0; line < here; line += part)
            {
                var skip = (long)line * lineBytes;
                yield return new ImageSection(offset + skip, Math.Max(0, bytes - skip), 0, y + line, Math.Min(part, here - line), shape.Width, shape.Width);
            }

            y += lines;
            if (y >= shape.Height)
            {
                yield break;
            }
        }
    }

    private static IEnumerable<ImageSection> Tiles(TiffFile tiff, TiffDirectory image, ImageShape shape)
    {
        var (width, height) = ((int)image.Number(322, 0), (int)Math.Min(image.Number(323, 0), shape.Height));
        var (x, y) = (0, 0);
        foreach (var (offset, bytes) in Table(tiff, image, 324, 325))
        {
            yield return new ImageSection(offset, bytes, x, y, Math.Min(height, shape.Height - y), width, Math.Min(width, shape.Width - x));
            x += width;
            if (x >= shape.Width)
            {
                (x, y) = (0, y + height);
            }
        }
    }

    private static IEnumerable<(long Offset, long Bytes)> Table(TiffFile tiff, TiffDirectory image, int offsets, int counts) => image.Has(counts)
        ? image.Numbers(offsets).Zip(image.Numbers(counts))
        : image.Numbers(offsets).Select(o => (o, tiff.Length - o));
}
