using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using PlateTickets.Tickets.Calendars;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Web.Calendars;

/// <summary>Due times and checks as iCalendar (RFC 5545, with NAME and REFRESH-INTERVAL of RFC 7986). Times are UTC, so no time zone need be described.</summary>
internal static class CalendarText
{
    private const string Domain = "plate-tickets";

    /// <param name="site">The room's name.</param>
    /// <param name="due">Tickets.</param>
    /// <param name="checks">Lamp readings and step tests.</param>
    /// <param name="done">When a ticket will be done, in words; null when nobody knows.</param>
    /// <param name="address">The address of a ticket's page.</param>
    /// <param name="nowUtc">When it was made.</param>
    public static string Write(
        string site, IReadOnlyList<DueEvent> due, IReadOnlyList<CheckEvent> checks, Func<DueEvent, string?> done, Func<string, Uri> address, DateTime nowUtc)
    {
        var calendar = new Calendar { ProductId = "-//PlateTickets//Due times//EN" };
        calendar.AddProperty("NAME", $"{site}: plates");
        calendar.AddProperty(new CalendarProperty("REFRESH-INTERVAL", "PT15M") { Parameters = { new CalendarParameter("VALUE", "DURATION") } });
        var stamp = new CalDateTime(nowUtc);
        calendar.Events.AddRange(due.Select(d => Event(d, done(d), address(d.Number), stamp)));
        calendar.Events.AddRange(checks.Select(c => Event(c, stamp)));
        return new CalendarSerializer().SerializeToString(calendar) ?? "";
    }

    private static CalendarEvent Event(DueEvent due, string? done, Uri address, CalDateTime stamp) => new()
    {
        Uid = $"{due.Number}@{Domain}",
        DtStamp = stamp,
        Sequence = due.Sequence,
        DtStart = new CalDateTime(due.DueUtc),
        Summary = $"{(due.State switch { TicketState.Done => "Done", TicketState.Cancelled => "Cancelled", _ => "Due" })}: {due.Customer}, {due.Title}",
        Description = string.Join(
            '\n',
            new[]
            {
                $"Ticket {TrackingNumber.ForPeople(due.Number)}, {(due.Plates == 1 ? "1 plate" : $"{due.Plates} plates")} for {due.Press}, {due.Material}",
                done ?? "",
            }.Where(l => l.Length > 0)),
        Status = due.State == TicketState.Cancelled ? EventStatus.Cancelled : EventStatus.Confirmed,
        // A due time takes nobody's time.
        Transparency = TransparencyType.Transparent,
        Url = address,
    };

    private static CalendarEvent Event(CheckEvent check, CalDateTime stamp) => new()
    {
        Uid = $"{check.Key}@{Domain}",
        DtStamp = stamp,
        DtStart = new CalDateTime(check.Day),
        Summary = check.IsOverdue ? $"Overdue: {check.Title}" : check.Title,
        Transparency = TransparencyType.Transparent,
    };
}
