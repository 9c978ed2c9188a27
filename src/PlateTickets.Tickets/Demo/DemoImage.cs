using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Orders.Separations.Pixels;

namespace PlateTickets.Tickets.Demo;

/// <summary>The image of an invented separation: a few grey panels. Its coverage and box are what the panels show.</summary>
internal static class DemoImage
{
    private const int Longest = 96;

    public static SeparationImage Of(string hash, double acrossMm, double aroundMm)
    {
        var random = new Random(Convert.ToInt32(hash[..7], 16));
        var scale = Longest / Math.Max(acrossMm, aroundMm);
        var (width, height) = (Math.Max(12, (int)(acrossMm * scale)), Math.Max(12, (int)(aroundMm * scale)));
        var grey = new byte[width * height];
        grey.AsSpan().Fill(255);
        var (left, top, right, bottom) = (width, height, 0, 0);
        for (var panel = 0; panel < 4; panel++)
        {
            var (x, y) = (random.Next(1, width / 2), random.Next(1, height / 2));
            var (x2, y2) = (random.Next(x + 2, width - 1), random.Next(y + 2, height - 1));
            var shade = (byte)random.Next(40, 230);
            for (var row = y; row < y2; row++)
            {
                grey.AsSpan((row * width) + x, x2 - x).Fill(shade);
            }

            (left, top, right, bottom) = (Math.Min(left, x), Math.Min(top, y), Math.Max(right, x2), Math.Max(bottom, y2));
        }

        var (cellX, cellY) = (acrossMm / width, aroundMm / height);
        return new SeparationImage(
            grey.Average(g => (255 - g) / 255.0), new ImageBox(left * cellX, top * cellY, (right - left) * cellX, (bottom - top) * cellY), GreyPng.Write(grey, width, height), hash);
    }
}
