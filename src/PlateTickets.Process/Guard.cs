using System.Globalization;

namespace PlateTickets.Process;

/// <summary>Refuses values that cannot be, with a sentence that says what to check.</summary>
internal static class Guard
{
    public static double Above(double value, double limit, string what, string unit) =>
        double.IsFinite(value) && value > limit ? value : throw Refusal(value, $"above {Text(limit)}", what, unit);

    public static double AtLeast(double value, double limit, string what, string unit) =>
        double.IsFinite(value) && value >= limit ? value : throw Refusal(value, $"{Text(limit)} or more", what, unit);

    private static PlateRoomException Refusal(double value, string range, string what, string unit)
    {
        var suffix = unit.Length == 0 ? "" : " " + unit;
        return new PlateRoomException($"{what} is {Text(value)}{suffix}, but must be {range}{suffix}: check what was typed and its unit.");
    }

    private static string Text(double value) => double.IsNaN(value) ? "not a number" : value.ToString("0.####", CultureInfo.InvariantCulture);
}
