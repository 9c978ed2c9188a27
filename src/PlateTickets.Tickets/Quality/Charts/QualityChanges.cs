using PlateTickets.Process;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Quality.Charts;

/// <summary>Something that changed in the room and may explain a signal.</summary>
/// <param name="AtUtc">When it was first seen.</param>
/// <param name="Sentence">What, without its time.</param>
public sealed record QualityChange(DateTime AtUtc, string Sentence);

/// <summary>Looks for what changed near a signal: lamps, lots, recipe revisions. It finds what is near, not what is the cause.</summary>
public static class QualityChanges
{
    /// <summary>How long before the first point of a signal a change is still told. A judgement of this project from no source.</summary>
    public static readonly TimeSpan LookBack = TimeSpan.FromDays(3);

    private const int MostAtOnce = 4;

    /// <summary>All changes, in the order of time.</summary>
    public static IReadOnlyList<QualityChange> Of(IReadOnlyList<QualityValue> values, IReadOnlyList<LampReadingEntry> lamps, QualityAsk ask, Room room) =>
    [
        .. Lamps(lamps, ask, room)
            .Concat(FirstUses(values, v => v.Lot.Length == 0 ? null : v.Lot, lot => $"lot {lot} is in use for the first time in this period"))
            .Concat(FirstUses(values, v => $"{v.Revision}", revision => $"recipe revision {revision} is in use for the first time in this period"))
            .OrderBy(c => c.AtUtc),
    ];

    /// <summary>The newest changes up to a signal, newest first.</summary>
    public static IReadOnlyList<QualityChange> Near(IReadOnlyList<QualityChange> changes, DateTime firstUtc, DateTime atUtc) =>
        [.. changes.Where(c => c.AtUtc >= firstUtc - LookBack && c.AtUtc <= atUtc).Reverse().Take(MostAtOnce)];

    private static IEnumerable<QualityChange> Lamps(IReadOnlyList<LampReadingEntry> lamps, QualityAsk ask, Room room)
    {
        // No lamp changes how long a sheet dries.
        if (ask.Measure == QualityMeasure.StageTime && ask.Station is not (Station.BackExposure or Station.FaceExposure))
        {
            yield break;
        }

        // A frame's own chart is about its own lamps; elsewhere any frame may have exposed the sheets.
        var own = room.EquipmentById(ask.EquipmentId)?.Serves.Exists(s => s is Station.BackExposure or Station.FaceExposure) == true ? ask.EquipmentId : null;
        foreach (var bank in lamps.Where(l => own is null || l.EquipmentId == own).Where(l => ask.Measure != QualityMeasure.Floor || l.Bank == LampBank.Back).GroupBy(l => (l.EquipmentId, l.Bank)))
        {
            LampReadingEntry? before = null;
            foreach (var reading in bank)
            {
                var name = $"{room.EquipmentById(reading.EquipmentId)?.Name}, {(reading.Bank == LampBank.Back ? "back" : "face")} lamps read: {Numbers.ForPeople(reading.IrradianceMwPerCm2, 2)} mW/cm²";
                yield return new(reading.ReadUtc, before is null ? name : $"{name}, {Numbers.ForPeople(before.IrradianceMwPerCm2, 2)} before");
                before = reading;
            }
        }
    }

    // What the first value already had is no change.
    private static IEnumerable<QualityChange> FirstUses(IReadOnlyList<QualityValue> values, Func<QualityValue, string?> what, Func<string, string> say)
    {
        var known = new HashSet<string>();
        foreach (var value in values)
        {
            if (what(value) is { } name && known.Add(name) && known.Count > 1)
            {
                yield return new(value.AtUtc, say(name));
            }
        }
    }
}
