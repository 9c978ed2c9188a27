using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Quality.Charts;

/// <summary>By what remakes are counted.</summary>
public enum RemakeBy
{
    Reason = 1,
    CausedAt = 2,
    FoundAt = 3,
    Material = 4,

    /// <summary>The machine at which the plate's sheet passed the station of cause.</summary>
    Equipment = 5,

    /// <summary>The shift in which that stage was finished; for other causes the one in which it was found.</summary>
    Shift = 6,
}

/// <summary>What makes a bar long.</summary>
public enum RemakeCost
{
    Plates = 1,
    Area = 2,
    Minutes = 3,
}

/// <summary>One remake with what it is counted by.</summary>
public sealed record RemakeFact(
    DateTime AtUtc, string Ticket, string Sheet, PlateDefect Defect, string Reason, Station? CausedAt, Station? FoundAt, string Material, string? Equipment, string Shift, long AreaUm2, int SpentSeconds)
{
    public double AreaM2 => AreaUm2 / 1e12;

    public double Minutes => SpentSeconds / 60.0;
}

/// <summary>Remakes of a period.</summary>
/// <param name="Facts">Newest first.</param>
/// <param name="More">There are older ones that were left out.</param>
public sealed record RemakesOfPeriod(IReadOnlyList<RemakeFact> Facts, bool More);

/// <summary>What one bar adds up.</summary>
public sealed record RemakeSum(string Title, int Plates, double AreaM2, double Minutes)
{
    public double Cost(RemakeCost cost) => cost switch { RemakeCost.Area => AreaM2, RemakeCost.Minutes => Minutes, _ => Plates };
}

/// <summary>Reads and adds up what was made again.</summary>
public sealed class RemakeFigures(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms)
{
    public const int Most = 3000;

    public static string Title(RemakeBy by) => by switch
    {
        RemakeBy.Reason => "reason",
        RemakeBy.CausedAt => "station of cause",
        RemakeBy.FoundAt => "station where found",
        RemakeBy.Material => "material",
        RemakeBy.Equipment => "machine of cause",
        RemakeBy.Shift => "shift",
        _ => throw new ArgumentOutOfRangeException(nameof(by), by, "Remakes are not counted by that."),
    };

    public static string Title(RemakeCost cost) => cost switch
    {
        RemakeCost.Plates => "plates",
        RemakeCost.Area => "m² lost",
        RemakeCost.Minutes => "minutes lost",
        _ => throw new ArgumentOutOfRangeException(nameof(cost), cost, "There is no such cost."),
    };

    public async Task<RemakesOfPeriod> ReadAsync(SitePeriod period, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var (from, to) = (period.FromUtc(room.Zone), period.ToUtc(room.Zone));
        await using var db = await databases.CreateDbContextAsync(cancel);
        var read = await db.Remakes.AsNoTracking().Where(r => r.AtUtc >= from && r.AtUtc < to)
            .OrderByDescending(r => r.AtUtc).ThenByDescending(r => r.Id).Take(Most + 1)
            .Select(r => new
            {
                r.AtUtc,
                Ticket = r.Ticket!.Order!.Number,
                Sheet = r.Sheet!.Number,
                r.Defect,
                r.Reason,
                r.CausedAt,
                r.FoundAt,
                r.Sheet.MaterialId,
                Equipment = r.Sheet.Stages.Where(s => s.Station == r.CausedAt).Select(s => s.EquipmentId).FirstOrDefault(),
                Caused = r.Sheet.Stages.Where(s => s.Station == r.CausedAt).Select(s => s.FinishedUtc).FirstOrDefault(),
                r.AreaUm2,
                r.SpentSeconds,
            })
            .ToListAsync(cancel);
        return new(
            [.. read.Take(Most).Select(r => new RemakeFact(
                r.AtUtc, r.Ticket, r.Sheet, r.Defect, r.Reason, r.CausedAt, r.FoundAt, room.Materials[r.MaterialId].Name, room.EquipmentById(r.Equipment)?.Name,
                room.ShiftAt(r.Caused ?? r.AtUtc).Title, r.AreaUm2, r.SpentSeconds))],
            read.Count > Most);
    }

    /// <summary>Bars for a Pareto chart, the most costly first.</summary>
    public static IReadOnlyList<ParetoBar<RemakeSum>> Sums(IEnumerable<RemakeFact> facts, RemakeBy by, RemakeCost cost) => Pareto.Of(
        facts.GroupBy(f => Key(f, by)).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => new RemakeSum(g.Key, g.Count(), g.Sum(f => f.AreaM2), g.Sum(f => f.Minutes))),
        s => s.Cost(cost));

    /// <summary>Every remake of the period, one a row (RFC 4180).</summary>
    public static string Csv(IEnumerable<RemakeFact> facts)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new Csv(text))
        {
            csv.Row("time (UTC)", "ticket", "sheet", "reason", "in words", "caused at", "found at", "material", "machine of cause", "shift", "area lost m2", "minutes lost");
            foreach (var fact in facts)
            {
                csv.Row(
                    fact.AtUtc.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture), fact.Ticket, fact.Sheet, fact.Defect.Title(), fact.Reason, fact.CausedAt?.Title() ?? "",
                    fact.FoundAt?.Title() ?? "", fact.Material, fact.Equipment ?? "", fact.Shift,
                    fact.AreaM2.ToString("0.####", CultureInfo.InvariantCulture), fact.Minutes.ToString("0.#", CultureInfo.InvariantCulture));
            }
        }

        return text.ToString();
    }

    private static string Key(RemakeFact fact, RemakeBy by) => by switch
    {
        RemakeBy.Reason => fact.Defect.Title(),
        RemakeBy.CausedAt => fact.CausedAt?.Title() ?? "outside of the plate room",
        RemakeBy.FoundAt => fact.FoundAt?.Title() ?? "outside of the plate room",
        RemakeBy.Material => fact.Material,
        RemakeBy.Equipment => fact.Equipment ?? "no machine of ours",
        RemakeBy.Shift => fact.Shift,
        _ => throw new ArgumentOutOfRangeException(nameof(by), by, "Remakes are not counted by that."),
    };
}
