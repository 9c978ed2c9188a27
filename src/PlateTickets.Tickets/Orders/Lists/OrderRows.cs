using System.Globalization;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders.Lists;

/// <summary>Reads numbers and dates of a row, as they were said to be written.</summary>
internal static class OrderRows
{
    private static readonly string[] Times = ["H:mm", "HH:mm", "HH:mm:ss", "h:mm tt"];

    private static readonly Dictionary<DayOrder, string[]> Days = new()
    {
        [DayOrder.YearFirst] = ["yyyy-M-d", "yyyy/M/d"],
        [DayOrder.DayFirst] = ["d.M.yyyy", "d/M/yyyy", "d-M-yyyy"],
        [DayOrder.MonthFirst] = ["M/d/yyyy", "M-d-yyyy"],
    };

    /// <summary>The row's order by names; what cannot be read gets a sentence under its column.</summary>
    public static NamedOrder Read(IReadOnlyDictionary<string, string> cells, ListReading how, TimeZoneInfo zone, Dictionary<string, string> troubles)
    {
        var (cylinder, repeat) = (Text(OrderList.Cylinder), Text(OrderList.Repeat));
        if (cylinder is not null && repeat is not null)
        {
            troubles[OrderList.Repeat] = "Cylinder and repeat are both given: leave one of them out.";
        }

        return new NamedOrder(
            Text(OrderList.Customer) ?? "", Text(OrderList.Title) ?? "", Text(OrderList.Press) ?? "", cylinder, Number(repeat, how, troubles), Text(OrderList.Material),
            Due(Text(OrderList.Due), how, zone, troubles), Copies(Text(OrderList.Copies), troubles));
        string? Text(string column) => cells.GetValueOrDefault(column);
    }

    private static double? Number(string? text, ListReading how, Dictionary<string, string> troubles)
    {
        if (text is null)
        {
            return null;
        }

        var (sign, other) = how.DecimalComma ? (',', '.') : ('.', ',');
        if (!text.Contains(other, StringComparison.Ordinal)
            && double.TryParse(text.Replace(sign, '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number))
        {
            return number;
        }

        troubles[OrderList.Repeat] = $"“{text}” is not a number of mm such as 571{sign}5, without a sign between thousands.";
        return null;
    }

    private static int Copies(string? text, Dictionary<string, string> troubles)
    {
        if (text is null)
        {
            return 1;
        }

        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var copies))
        {
            return copies;
        }

        troubles[OrderList.Copies] = $"“{text}” is not a whole number such as 2.";
        return 1;
    }

    private static DateTime Due(string? text, ListReading how, TimeZoneInfo zone, Dictionary<string, string> troubles)
    {
        if (text is null)
        {
            troubles[OrderList.Due] = "The due day and time are missing.";
            return default;
        }

        if (DateTimeOffset.TryParseExact(text, ["yyyy-MM-ddTHH:mmK", "yyyy-MM-ddTHH:mm:ssK", "yyyy-MM-dd HH:mmzzz", "yyyy-MM-dd HH:mm:sszzz"], CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var moment)
            && (text.EndsWith('Z') || text[11..].AsSpan().ContainsAny('+', '-')))
        {
            return moment.UtcDateTime;
        }

        var days = how.Days == DayOrder.YearFirst ? Days[DayOrder.YearFirst] : [.. Days[DayOrder.YearFirst], .. Days[how.Days]];
        string[] forms = [.. days.SelectMany(d => Times.SelectMany(t => new[] { $"{d} {t}", $"{d}T{t}" }))];
        if (DateTime.TryParseExact(text, forms, CultureInfo.InvariantCulture, DateTimeStyles.AllowInnerWhite, out var local))
        {
            if (zone.IsInvalidTime(local))
            {
                troubles[OrderList.Due] = $"“{text}” does not exist: the clocks go forward over it. Choose an earlier or a later time.";
            }

            return SiteClock.ToUtc(local, zone);
        }

        troubles[OrderList.Due] = DateOnly.TryParseExact(text, days, CultureInfo.InvariantCulture, DateTimeStyles.None, out _)
            ? $"“{text}” has no time of day: type it after the day, such as {Example(how.Days)}."
            : $"“{text}” is not a day and time such as {Example(how.Days)}.";
        return default;
    }

    private static string Example(DayOrder days) => days switch
    {
        DayOrder.DayFirst => "27.11.2026 14:00",
        DayOrder.MonthFirst => "11/27/2026 14:00",
        _ => "2026-11-27 14:00",
    };
}
