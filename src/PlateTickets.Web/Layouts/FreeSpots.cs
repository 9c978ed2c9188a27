using PlateTickets.Planning.Nesting;

namespace PlateTickets.Web.Layouts;

/// <summary>Where a plate can lie on a sheet beside the others: micrometres.</summary>
internal static class FreeSpots
{
    // Nearer than this a dropped plate goes where the rims and gaps want it.
    private const long SnapUm = 20_000;

    /// <summary>The free place nearest to the sheet's corner, along the axis first; null when there is none.</summary>
    public static (long X, long Y)? First(DraftSheet sheet, NestRules rules, int plate, long width, long length)
    {
        var others = sheet.Plates.Where(p => p.PlateId != plate).ToList();
        foreach (var x in Places(others.Select(p => p.X + p.Width), rules.SideMargin, rules.Gap))
        {
            foreach (var y in Places(others.Select(p => p.Y + p.Length), rules.ClampMargin, rules.Gap))
            {
                if (x + width <= sheet.Width - rules.SideMargin && y + length <= sheet.Length - rules.ClampMargin
                    && !others.Exists(o => TooNear(o, x, y, width, length, rules.Gap)))
                {
                    return (x, y);
                }
            }
        }

        return null;
    }

    /// <summary>A dropped plate, drawn to the rims and to its neighbours when it is near to them, and kept on the sheet.</summary>
    public static (long X, long Y) Snap(DraftSheet sheet, NestRules rules, int plate, long x, long y, long width, long length)
    {
        var others = sheet.Plates.Where(p => p.PlateId != plate).ToList();
        var xs = others.SelectMany(o => new[] { o.X, o.X + o.Width + rules.Gap, o.X - rules.Gap - width, o.X + o.Width - width })
            .Append(rules.SideMargin).Append(sheet.Width - rules.SideMargin - width);
        var ys = others.SelectMany(o => new[] { o.Y, o.Y + o.Length + rules.Gap, o.Y - rules.Gap - length, o.Y + o.Length - length })
            .Append(rules.ClampMargin).Append(sheet.Length - rules.ClampMargin - length);
        return (Kept(Nearest(xs, x), sheet.Width - width), Kept(Nearest(ys, y), sheet.Length - length));
    }

    private static IEnumerable<long> Places(IEnumerable<long> ends, long margin, long gap) => ends.Select(e => e + gap).Append(margin).Distinct().Order();

    private static bool TooNear(PlacedPlate o, long x, long y, long width, long length, long gap) =>
        x < o.X + o.Width + gap && o.X < x + width + gap && y < o.Y + o.Length + gap && o.Y < y + length + gap;

    private static long Nearest(IEnumerable<long> places, long to)
    {
        var nearest = places.MinBy(p => Math.Abs(p - to));
        return Math.Abs(nearest - to) <= SnapUm ? nearest : to;
    }

    private static long Kept(long at, long most) => Math.Clamp(at, 0, Math.Max(0, most));
}
