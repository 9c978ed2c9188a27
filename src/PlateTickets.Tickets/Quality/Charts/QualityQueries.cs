using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Quality.Charts;

/// <summary>One value with what it may depend on.</summary>
/// <param name="AtUtc">When it was read, or the stage ended.</param>
/// <param name="Value">mm, or percent of the computed time.</param>
/// <param name="From">The least that was right for it; null for no limit.</param>
/// <param name="To">The most that was right for it.</param>
/// <param name="Sheet">The sheet's number.</param>
/// <param name="EquipmentId">Where.</param>
/// <param name="Lot">The sheet's lot; may be empty.</param>
/// <param name="Revision">The number of the sheet's recipe revision.</param>
/// <param name="By">Who.</param>
public sealed record QualityValue(DateTime AtUtc, double Value, double? From, double? To, string Sheet, int? EquipmentId, string Lot, int Revision, string By);

/// <summary>The values of a chart.</summary>
/// <param name="Values">In the order of time.</param>
/// <param name="More">The period has older ones that were left out: a chart holds <see cref="QualityQueries.Most"/>.</param>
/// <param name="LeftOut">Values that say nothing, such as a stage that somebody forgot to finish.</param>
/// <param name="Lamps">Lamp readings of the frames in the period and the two weeks before it, in the order of time.</param>
public sealed record QualityValues(IReadOnlyList<QualityValue> Values, bool More, int LeftOut, IReadOnlyList<LampReadingEntry> Lamps);

/// <summary>Reads what charts are made of: the newest values of a period.</summary>
public sealed class QualityQueries(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms)
{
    /// <summary>No chart shows more; the newest count.</summary>
    public const int Most = 1000;

    private const int MostLamps = 2000;
    private static readonly TimeSpan LampsBefore = TimeSpan.FromDays(14);

    public async Task<QualityValues> ReadAsync(QualityAsk ask, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var (from, to) = (ask.Period.FromUtc(room.Zone), ask.Period.ToUtc(room.Zone));
        await using var db = await databases.CreateDbContextAsync(cancel);
        var since = from - LampsBefore;
        var lamps = await db.LampReadings.AsNoTracking().Where(r => r.ReadUtc >= since && r.ReadUtc < to).OrderByDescending(r => r.ReadUtc).Take(MostLamps).ToListAsync(cancel);
        lamps.Reverse();
        var (values, leftOut) = ask.IsLength ? (await ReadingsAsync(db, ask, from, to, cancel), 0) : await TimesAsync(db, room, ask, from, to, cancel);
        var more = values.Count + leftOut > Most;
        return new([.. values.Take(Most).Reverse()], more, leftOut, lamps);
    }

    private static async Task<List<QualityValue>> ReadingsAsync(PlateRoomDb db, QualityAsk ask, DateTime from, DateTime to, CancellationToken cancel)
    {
        var kind = ask.Reading;
        var read = await db.StageReadings.AsNoTracking()
            .Where(r => r.Kind == kind && r.AtUtc >= from && r.AtUtc < to && r.Value != null && r.Sheet!.MaterialId == ask.MaterialId)
            .Where(r => ask.EquipmentId == null || r.EquipmentId == ask.EquipmentId)
            .OrderByDescending(r => r.AtUtc).ThenByDescending(r => r.Id).Take(Most + 1)
            .Select(r => new { r.AtUtc, Value = r.Value!.Value, r.From, r.To, r.Sheet!.Number, r.EquipmentId, r.Sheet.Lot, Revision = r.Sheet.RecipeRevision!.Number, r.By })
            .ToListAsync(cancel);
        return [.. read.Select(r => new QualityValue(r.AtUtc, r.Value / 1000.0, r.From / 1000.0, r.To / 1000.0, r.Number, r.EquipmentId, r.Lot, r.Revision, r.By))];
    }

    private static async Task<(List<QualityValue> Values, int LeftOut)> TimesAsync(PlateRoomDb db, Room room, QualityAsk ask, DateTime from, DateTime to, CancellationToken cancel)
    {
        var read = await db.Stages.AsNoTracking()
            .Where(s => s.FinishedUtc >= from && s.FinishedUtc < to && s.Station == ask.Station && s.State == StageState.Done && s.StartedUtc != null && s.SkippedBecause == "")
            .Where(s => s.Sheet!.MaterialId == ask.MaterialId && (ask.EquipmentId == null || s.EquipmentId == ask.EquipmentId))
            .OrderByDescending(s => s.FinishedUtc).ThenByDescending(s => s.Id).Take(Most + 1)
            .Select(s => new
            {
                Started = s.StartedUtc!.Value,
                Finished = s.FinishedUtc!.Value,
                s.LoadSeconds,
                s.RunSeconds,
                s.UnloadSeconds,
                s.Sheet!.Number,
                s.EquipmentId,
                s.Sheet.Lot,
                Revision = s.Sheet.RecipeRevision!.Number,
                s.FinishedBy,
            })
            .ToListAsync(cancel);
        if (read.Count == 0)
        {
            return ([], 0);
        }

        var working = room.WorkingBetween(read.Min(s => s.Started).AddDays(-1), read.Max(s => s.Finished).AddDays(7));
        var values = read
            .Select(s => (Stage: s, Ratio: StageSpreads.Ratio(working, s.Started, s.Finished, s.LoadSeconds, s.RunSeconds, s.UnloadSeconds)))
            .Where(s => s.Ratio is >= StageSpreads.LeastRatio and <= StageSpreads.MostRatio)
            .Select(s => new QualityValue(s.Stage.Finished, 100 * s.Ratio, null, null, s.Stage.Number, s.Stage.EquipmentId, s.Stage.Lot, s.Stage.Revision, s.Stage.FinishedBy))
            .ToList();
        return (values, read.Count - values.Count);
    }
}
