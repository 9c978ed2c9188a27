using System.Globalization;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Tickets.Tests.Orders.Separations;

/// <summary>The pixels of a file as ImageMagick sees them: upright, 0 is black, a byte a pixel. Everything else is counted here, pixel by pixel.</summary>
internal sealed class SeenByImageMagick
{
    private SeenByImageMagick(int width, int height, byte[] grey) => (Width, Height, Grey) = (width, height, grey);

    public int Width { get; }

    public int Height { get; }

    public byte[] Grey { get; }

    /// <summary>Every pixel is black or white.</summary>
    public double Coverage => Grey.AsSpan().Count((byte)0) / (double)Grey.Length;

    /// <summary>Left, top, right and bottom of the black; the last two lie behind it.</summary>
    public (int Left, int Top, int Right, int Bottom) Box
    {
        get
        {
            var (left, top, right, bottom) = (int.MaxValue, int.MaxValue, 0, 0);
            for (var y = 0; y < Height; y++)
            {
                var line = Grey.AsSpan(y * Width, Width);
                if (line.IndexOf((byte)0) is >= 0 and var first)
                {
                    (left, top, right, bottom) = (Math.Min(left, first), Math.Min(top, y), Math.Max(right, line.LastIndexOf((byte)0) + 1), y + 1);
                }
            }

            return (left, top, right, bottom);
        }
    }

    public static SeenByImageMagick Read(string file)
    {
        var size = Tool.Run("imagemagick", "convert", file, "-auto-orient", "-format", "%w %h", "info:").Trim().Split(' ');
        var raw = file + ".gray";
        Tool.Run("imagemagick", "convert", file, "-auto-orient", "-depth", "8", "gray:" + raw);
        var seen = new SeenByImageMagick(int.Parse(size[0], CultureInfo.InvariantCulture), int.Parse(size[1], CultureInfo.InvariantCulture), File.ReadAllBytes(raw));
        File.Delete(raw);
        Assert.Equal(seen.Width * seen.Height, seen.Grey.Length);
        return seen;
    }

    /// <summary>The mean of each square of so many pixels, from a corner that the orientation decides.</summary>
    public byte[] Shrunk(int cell, bool fromRight, bool fromBottom)
    {
        var (across, down) = (((Width - 1) / cell) + 1, ((Height - 1) / cell) + 1);
        var (sum, area) = (new long[across * down], new int[across * down]);
        for (var y = 0; y < Height; y++)
        {
            var row = fromBottom ? down - 1 - ((Height - 1 - y) / cell) : y / cell;
            for (var x = 0; x < Width; x++)
            {
                var at = (row * across) + (fromRight ? across - 1 - ((Width - 1 - x) / cell) : x / cell);
                sum[at] += Grey[(y * Width) + x] < 128 ? 1 : 0;
                area[at]++;
            }
        }

        return [.. sum.Select((s, i) => (byte)(255 - (((s * 255) + (area[i] / 2)) / area[i])))];
    }
}
