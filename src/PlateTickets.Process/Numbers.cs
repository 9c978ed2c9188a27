using System.Globalization;

namespace PlateTickets.Process;

/// <summary>Numbers as the room reads them: a point for decimals, a no-break space between thousands, no needless zeros.</summary>
public static class Numbers
{
    private static readonly NumberFormatInfo Grouped = new() { NumberDecimalSeparator = ".", NumberGroupSeparator = "\u00a0" };

    /// <summary>At most so many decimals: "10 800", "14.9", "0.4".</summary>
    public static string ForPeople(double value, int decimals = 1) =>
        Math.Round(value, decimals, MidpointRounding.AwayFromZero).ToString(decimals == 0 ? "#,0" : "#,0." + new string('#', decimals), Grouped);

    /// <summary>A day: "22 Nov 2026".</summary>
    internal static string Day(DateTime utc) => utc.ToString("d MMM yyyy", CultureInfo.InvariantCulture);
}
