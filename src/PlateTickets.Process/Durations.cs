using System.Globalization;

namespace PlateTickets.Process;

/// <summary>Durations as people say them.</summary>
public static class Durations
{
    /// <summary>"45 s", "1 min 40 s", "1 h 30 min", "2 d 3 h". Seconds are shown below one hour only.</summary>
    public static string ForPeople(double seconds)
    {
        var whole = (long)Math.Round(Math.Max(0, seconds));
        if (whole < 60)
        {
            return Text(whole, "s");
        }

        if (whole < 3600)
        {
            return Two(whole / 60, "min", whole % 60, "s");
        }

        var minutes = (long)Math.Round(whole / 60.0);
        return minutes < 48 * 60
            ? Two(minutes / 60, "h", minutes % 60, "min")
            : Two(minutes / 1440, "d", minutes % 1440 / 60, "h");
    }

    private static string Two(long first, string unit, long second, string secondUnit) =>
        second == 0 ? Text(first, unit) : $"{Text(first, unit)} {Text(second, secondUnit)}";

    private static string Text(long value, string unit) => string.Create(CultureInfo.InvariantCulture, $"{value} {unit}");
}
