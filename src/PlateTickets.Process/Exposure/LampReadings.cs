using PlateTickets.Process.Recipes;

namespace PlateTickets.Process.Exposure;

/// <summary>What a radiometer reading is worth: flags for a missing or an old one.</summary>
internal static class LampReadings
{
    public static string Source(EquipmentFacts frame, LampReading reading) => $"{frame.Name}, read {Numbers.Day(reading.ReadAtUtc)}";

    /// <summary>No flag, or one sentence when the reading is older than the frame's limit.</summary>
    public static IReadOnlyList<string> Flags(EquipmentFacts frame, LampReading reading, string lamps, DateTime nowUtc)
    {
        var age = nowUtc - reading.ReadAtUtc;
        return age <= TimeSpan.FromHours(frame.ReadingValidHours)
            ? []
            :
            [
                $"{frame.Name}: the reading of the {lamps} lamps is of {Numbers.Day(reading.ReadAtUtc)}, older than {Durations.ForPeople(frame.ReadingValidHours * 3600)}. Read them again; the time is computed with the old value.",
            ];
    }
}
