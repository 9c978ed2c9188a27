using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Security.Cryptography;

namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>Makes coverage, box and an upright grey preview of what was counted.</summary>
internal static class PreviewMaker
{
    /// <param name="counter">Finished.</param>
    /// <param name="shape">Of the stored image.</param>
    /// <param name="xPerMm">Pixels per mm of a stored line.</param>
    /// <param name="yPerMm">Stored lines per mm.</param>
    public static SeparationImage Make(InkCounter counter, ImageShape shape, double xPerMm, double yPerMm)
    {
        var swaps = shape.Orientation >= 5;
        var (width, height) = swaps ? (shape.CellsDown, shape.CellsAcross) : (shape.CellsAcross, shape.CellsDown);
        var grey = new byte[width * height];
        var ink = new int[width * height];
        long total = 0;
        for (var (row, at) = (0, 0); row < shape.CellsDown; row++)
        {
            var lines = Math.Min(shape.CellHeight, shape.Height - (row * shape.CellHeight));
            for (var column = 0; column < shape.CellsAcross; column++, at++)
            {
                var area = lines * Math.Min(shape.CellWidth, shape.Width - (column * shape.CellWidth));
                var here = shape.InkIsZero ? area - counter.Cells[at] : counter.Cells[at];
                total += here;
                var (x, y) = Upright(shape.Orientation, column, row, shape.CellsAcross - 1, shape.CellsDown - 1);
                ink[(y * width) + x] = here;
                grey[(y * width) + x] = (byte)(255 - (((here * 255L) + (area / 2)) / area));
            }
        }

        return new SeparationImage(
            total / ((double)shape.Width * shape.Height), Box(counter, shape, xPerMm, yPerMm), GreyPng.Write(grey, width, height), Hash(counter, shape, ink));
    }

    /// <summary>Where a stored place comes to lie: TIFF 6.0, Orientation. From 5 on, lines and columns change places.</summary>
    private static (int X, int Y) Upright(int orientation, int column, int row, int lastColumn, int lastRow) => orientation switch
    {
        2 => (lastColumn - column, row),
        3 => (lastColumn - column, lastRow - row),
        4 => (column, lastRow - row),
        5 => (row, column),
        6 => (lastRow - row, column),
        7 => (lastRow - row, lastColumn - column),
        8 => (row, lastColumn - column),
        _ => (column, row),
    };

    private static ImageBox? Box(InkCounter counter, ImageShape shape, double xPerMm, double yPerMm)
    {
        if (counter.Right == 0)
        {
            return null;
        }

        var (left, top) = Upright(shape.Orientation, counter.Left, counter.Top, shape.Width, shape.Height);
        var (right, bottom) = Upright(shape.Orientation, counter.Right, counter.Bottom, shape.Width, shape.Height);
        var (x, y) = shape.Orientation >= 5 ? (yPerMm, xPerMm) : (xPerMm, yPerMm);
        return new ImageBox(Math.Min(left, right) / x, Math.Min(top, bottom) / y, Math.Abs(right - left) / x, Math.Abs(bottom - top) / y);
    }

    private static string Hash(InkCounter counter, ImageShape shape, int[] ink)
    {
        // A mirrored image counts from the other end: its cells are other ones, and so is its hash. That only misses a copy.
        Span<byte> frame = stackalloc byte[24];
        var (width, height) = shape.Orientation >= 5 ? (shape.Height, shape.Width) : (shape.Width, shape.Height);
        var (left, top) = Upright(shape.Orientation, counter.Right == 0 ? 0 : counter.Left, counter.Right == 0 ? 0 : counter.Top, shape.Width, shape.Height);
        var (right, bottom) = Upright(shape.Orientation, counter.Right, counter.Bottom, shape.Width, shape.Height);
        BinaryPrimitives.WriteInt32LittleEndian(frame, width);
        BinaryPrimitives.WriteInt32LittleEndian(frame[4..], height);
        BinaryPrimitives.WriteInt32LittleEndian(frame[8..], Math.Min(left, right));
        BinaryPrimitives.WriteInt32LittleEndian(frame[12..], Math.Min(top, bottom));
        BinaryPrimitives.WriteInt32LittleEndian(frame[16..], Math.Max(left, right));
        BinaryPrimitives.WriteInt32LittleEndian(frame[20..], Math.Max(top, bottom));
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(frame);
        hash.AppendData(MemoryMarshal.AsBytes(ink.AsSpan()));
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
