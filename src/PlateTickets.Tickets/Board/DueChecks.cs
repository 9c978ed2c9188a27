using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Board;

/// <summary>Says which lamp readings and step tests are due, or will be soon.</summary>
internal static class DueChecks
{
    /// <summary>A step test is due again after so long: a judgement of this project, from no source; the maker of the material may ask for less.</summary>
    public static readonly TimeSpan StepTestValid = TimeSpan.FromDays(90);

    private static readonly TimeSpan LampsShownBefore = TimeSpan.FromHours(24);
    private static readonly TimeSpan TestsShownBefore = TimeSpan.FromDays(7);

    /// <summary>Those that the board shows: overdue first, then by due time.</summary>
    public static IEnumerable<CheckRow> Of(Room room, ShiftFacts facts, DateTime nowUtc) =>
        All(room, facts.StepTests).Where(c => c.DueUtc is null || c.DueUtc <= nowUtc + c.ShownBefore)
            .OrderByDescending(c => c.DueUtc is null || c.DueUtc <= nowUtc).ThenBy(c => c.DueUtc ?? DateTime.MinValue).Select(c => Row(c, room, nowUtc));

    /// <summary>Every reading and test that will be due at some time.</summary>
    public static IEnumerable<DueCheck> All(Room room, IReadOnlyList<StepTestFact> stepTests) => Lamps(room).Concat(StepTests(room, stepTests));

    private static CheckRow Row(DueCheck check, Room room, DateTime nowUtc)
    {
        var when = check.DueUtc is not { } due ? "never read"
            : due <= nowUtc ? $"overdue since {SiteClock.Near(due, nowUtc, room.Zone)}" : $"due {SiteClock.Near(due, nowUtc, room.Zone)}";
        return new CheckRow(check.Key, check.Title, when, check.DueUtc is null || check.DueUtc <= nowUtc);
    }

    private static IEnumerable<DueCheck> Lamps(Room room)
    {
        foreach (var frame in room.Equipment.Where(e => e.Serves.Contains(Station.BackExposure) || e.Serves.Contains(Station.FaceExposure)))
        {
            var facts = room.Facts[frame.Id];
            var banks = new (string Name, Station Station, LampReading? Reading)[] { ("back", Station.BackExposure, facts.BackLamps), ("face", Station.FaceExposure, facts.FaceLamps) };
            foreach (var (name, _, reading) in banks.Where(b => frame.Serves.Contains(b.Station)))
            {
                yield return new DueCheck($"lamps-{frame.Id}-{name}", $"{frame.Name}: read the {name} lamps", reading?.ReadAtUtc.AddHours(frame.ReadingValidHours), LampsShownBefore);
            }
        }
    }

    private static IEnumerable<DueCheck> StepTests(Room room, IReadOnlyList<StepTestFact> stepTests)
    {
        foreach (var test in stepTests)
        {
            if (room.Released(test.MaterialId) is not null && room.EquipmentById(test.EquipmentId) is { } frame)
            {
                yield return new DueCheck($"test-{test.MaterialId}-{test.EquipmentId}", $"{frame.Name}: step test of {room.Materials[test.MaterialId].Name}", test.MadeUtc + StepTestValid, TestsShownBefore);
            }
        }
    }
}

/// <param name="Key">The same for ever.</param>
/// <param name="Title">What is to be done.</param>
/// <param name="DueUtc">Null for a lamp bank that was never read.</param>
/// <param name="ShownBefore">So long before it is due people are told.</param>
internal sealed record DueCheck(string Key, string Title, DateTime? DueUtc, TimeSpan ShownBefore);
