namespace PlateTickets.Tickets.Orders.Lists;

/// <summary>In which order a date names its parts, besides year-month-day (ISO 8601), which is always understood.</summary>
public enum DayOrder
{
    YearFirst,

    /// <summary>27.11.2026 or 27/11/2026.</summary>
    DayFirst,

    /// <summary>11/27/2026.</summary>
    MonthFirst,
}

/// <summary>How a list is to be read. Nothing of it is guessed behind a person's back: the page shows what was chosen.</summary>
/// <param name="Separator">Between cells: comma, semicolon or tab.</param>
/// <param name="DecimalComma">12,5 instead of 12.5.</param>
/// <param name="Days">Of dates that are not ISO 8601.</param>
public sealed record ListReading(char Separator = ',', bool DecimalComma = false, DayOrder Days = DayOrder.YearFirst)
{
    /// <summary>The separators that can be chosen.</summary>
    public static IReadOnlyList<char> Separators { get; } = [',', ';', '\t'];

    /// <summary>A first choice from the line with the names of the columns: where cells are parted by semicolons the comma is usually the decimal sign.</summary>
    public static ListReading Propose(string text)
    {
        var end = text.AsSpan().IndexOfAny('\r', '\n');
        var header = end < 0 ? text.AsSpan() : text.AsSpan(0, end);
        var separator = ',';
        foreach (var one in Separators)
        {
            if (header.Count(one) > header.Count(separator))
            {
                separator = one;
            }
        }

        return new ListReading(separator, separator == ';');
    }
}
