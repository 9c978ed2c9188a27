using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Layouts;

/// <summary>What a layout takes: sheets, square metres of them, what its plates cover and the remnants keep, and minutes of imaging.</summary>
internal sealed record LayoutFigures(int Sheets, double AreaM2, double PlatesM2, double RemnantsM2, double? ImagingMinutes)
{
    /// <summary>What is thrown away, of the area.</summary>
    public double Waste => AreaM2 > 0 ? (AreaM2 - PlatesM2 - RemnantsM2) / AreaM2 : 0;

    public static LayoutFigures Of(IEnumerable<NestSheet> sheets, Room room, int materialId, Func<int, bool> isCounted, DateTime nowUtc)
    {
        var laid = sheets.Where(s => s.Plates.Count > 0).ToList();
        var cuts = laid.Select(s => isCounted(s.StockId) ? RemnantCut.Of(s, room.NestRules, room.Site.LeastRemnantUm) : null).ToList();
        return new LayoutFigures(
            laid.Count,
            laid.Sum(s => M2(s.Width, s.Length)),
            laid.SelectMany(s => s.Plates).Sum(p => M2(p.Width, p.Length)),
            cuts.Sum(c => c is null ? 0 : M2(c.Width, c.Length)),
            laid.Select(s => Imaging(s, room, materialId, nowUtc)).Aggregate((double?)0, (sum, minutes) => sum + minutes));
    }

    // On the first imager that can do it: enough to compare two layouts.
    private static double? Imaging(NestSheet nested, Room room, int materialId, DateTime nowUtc)
    {
        if (room.Released(materialId) is not { } revision)
        {
            return null;
        }

        var sheet = new Sheet
        {
            Number = "",
            MaterialId = materialId,
            RecipeRevisionId = revision.Id,
            WidthUm = (int)nested.Width,
            LengthUm = (int)nested.Length,
            AxialExtentUm = (int)nested.AxialExtent,
            PlateCount = nested.Plates.Count,
        };
        return room.For(Station.Imaging, revision.Settings)
            .Select(machine => StageTiming.TryCompute(room, sheet, Station.Imaging, machine, nowUtc).Time)
            .FirstOrDefault(time => time is not null) is { } found
            ? (found.LoadSeconds + found.RunSeconds + found.UnloadSeconds) / 60
            : null;
    }

    private static double M2(long width, long length) => width / 1e6 * (length / 1e6);
}
