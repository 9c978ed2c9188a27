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

    public static IEnumerable<CheckRow> Of(Room room, ShiftFacts facts, DateTime nowUtc) =>
        Lamps(room, nowUtc).Concat(StepTests(room, facts, nowUtc)).OrderByDescending(c => c.Row.IsOverdue).ThenBy(c => c.DueUtc).Select(c => c.Row);

    private static IEnumerable<(CheckRow Row, DateTime DueUtc)> Lamps(Room room, DateTime nowUtc)
    {
        foreach (var frame in room.Equipment.Where(e => e.Serves.Contains(Station.BackExposure) || e.Serves.Contains(Station.FaceExposure)))
        {
            var facts = room.Facts[frame.Id];
            var banks = new (string Name, Station Station, LampReading? Reading)[] { ("back", Station.BackExposure, facts.BackLamps), ("face", Station.FaceExposure, facts.FaceLamps) };
            foreach (var (name, _, reading) in banks.Where(b => frame.Serves.Contains(b.Station)))
            {
                var due = reading?.ReadAtUtc.AddHours(frame.ReadingValidHours) ?? DateTime.MinValue;
                if (due <= nowUtc + LampsShownBefore)
                {
                    var when = reading is null ? "never read" : due <= nowUtc ? $"overdue since {At(due, nowUtc, room)}" : $"due {At(due, nowUtc, room)}";
                    yield return (new CheckRow($"lamps-{frame.Id}-{name}", $"{frame.Name}: read the {name} lamps", when, due <= nowUtc), due);
                }
            }
        }
    }

    private static IEnumerable<(CheckRow Row, DateTime DueUtc)> StepTests(Room room, ShiftFacts facts, DateTime nowUtc)
    {
        foreach (var test in facts.StepTests)
        {
            var due = test.MadeUtc + StepTestValid;
            if (due <= nowUtc + TestsShownBefore && room.Released(test.MaterialId) is not null && room.EquipmentById(test.EquipmentId) is { } frame)
            {
                yield return (
                    new CheckRow(
                        $"test-{test.MaterialId}-{test.EquipmentId}", $"{frame.Name}: step test of {room.Materials[test.MaterialId].Name}",
                        due <= nowUtc ? $"overdue since {At(due, nowUtc, room)}" : $"due {At(due, nowUtc, room)}", due <= nowUtc),
                    due);
            }
        }
    }

    private static string At(DateTime utc, DateTime nowUtc, Room room) => SiteClock.Near(utc, nowUtc, room.Zone);
}
