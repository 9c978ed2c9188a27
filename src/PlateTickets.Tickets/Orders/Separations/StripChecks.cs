namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>Checks that the strips or tiles hold what the header claims and lie inside the file.</summary>
internal static class StripChecks
{
    public static void Check(TiffFile tiff, TiffDirectory image, int width, int height, long compression, string fileName)
    {
        var tiled = image.Has(322);
        var (offsets, counts) = tiled ? (324, 325) : (273, 279);
        var expected = tiled ? Tiles(tiff, image, width, height) : Strips(tiff, image, height);
        if (image.Count(offsets) != expected)
        {
            throw tiff.Damaged($"{expected} {(tiled ? "tiles" : "strips")} would hold {height} lines, but its table names {image.Count(offsets)}");
        }

        // Old files with one strip may leave its length out.
        var has = image.Has(counts);
        if (has ? image.Count(counts) != expected : expected != 1)
        {
            throw tiff.Damaged("the lengths of its strips are missing");
        }

        long bytes = 0;
        using var lengths = (has ? image.Numbers(counts) : [tiff.Length - image.Number(offsets, 0)]).GetEnumerator();
        foreach (var offset in image.Numbers(offsets))
        {
            lengths.MoveNext();
            if (lengths.Current < 0 || offset > tiff.Length || lengths.Current > tiff.Length - offset)
            {
                throw new SeparationException(
                    SeparationFault.CutOff, $"{fileName} is cut off: the file ends before its image does. Send it again, whole.");
            }

            bytes += Math.Min(lengths.Current, long.MaxValue / 4 - bytes);
        }

        // Blank strips may share their bytes. A file whose strips are all the same large piece is made to keep a reader busy.
        if (bytes > (2 * tiff.Length) + (1 << 20))
        {
            throw tiff.Damaged("its strips lie on top of each other");
        }

        var needed = (width + 7L) / 8 * height;
        if (compression == 1 && !tiled && bytes < needed)
        {
            throw new SeparationException(
                SeparationFault.CutOff, $"{fileName} is cut off: {height} lines of {width} pixels need {needed} bytes, and it holds {bytes}. Send it again, whole.");
        }

        if (bytes == 0)
        {
            throw tiff.Damaged("it holds no image data");
        }
    }

    private static long Strips(TiffFile tiff, TiffDirectory image, int height)
    {
        var rows = image.Number(278, uint.MaxValue);
        return rows > 0 ? ((height - 1) / rows) + 1 : throw tiff.Damaged("its strips are said to have no lines");
    }

    private static long Tiles(TiffFile tiff, TiffDirectory image, int width, int height)
    {
        var (across, down) = (image.Number(322, 0), image.Number(323, 0));
        // TIFF 6.0, section 15: tiles are multiples of 16.
        if (across % 16 != 0 || down > int.MaxValue || across > width + 65536L)
        {
            throw tiff.Damaged($"its tiles are said to be {across} × {down} pixels");
        }

        return across > 0 && down > 0 ? (((width - 1) / across) + 1) * (((height - 1) / down) + 1) : throw tiff.Damaged("its tiles are said to have no size");
    }
}
