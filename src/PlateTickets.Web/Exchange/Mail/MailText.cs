using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Exchange.Mail;

/// <summary>Words what a customer is told.</summary>
internal static class MailText
{
    private const int LongestTitle = 80;

    public static string Subject(TicketEvent happened, Order order) => happened.Kind switch
    {
        TicketEventKind.Promised => $"Your plates are planned: {Line(order.Title)}",
        TicketEventKind.AtRisk => $"Your plates may come late: {Line(order.Title)}",
        _ => $"Your plates are done: {Line(order.Title)}",
    };

    /// <param name="happened">Promised, at risk or finished.</param>
    /// <param name="order">With its customer.</param>
    /// <param name="site">Who writes.</param>
    /// <param name="zone">The site's.</param>
    /// <param name="status">Where the customer sees how far the order is; null for nowhere.</param>
    public static string Body(TicketEvent happened, Order order, string site, TimeZoneInfo zone, string? status)
    {
        string At(DateTime utc) => Moment(utc, zone);
        var lines = new List<string>
        {
            happened.Kind switch
            {
                TicketEventKind.Promised => happened.ForUtc is { } by && by > order.DueUtc
                    ? $"The plates of this order are planned to be done by {At(by)}. That is after the time that you asked for; please call us if it does not suit."
                    : $"The plates of this order are planned to be done by {At(happened.ForUtc ?? order.DueUtc)}.",
                TicketEventKind.AtRisk => $"The plates of this order may not be done at the time that you asked for.{(happened.ForUtc is { } by ? $" As things stand they are done by {At(by)}." : "")} We are working on it; please call us if you need to know more.",
                _ => $"The plates of this order are done since {At(happened.AtUtc)}.",
            },
            "",
            $"Job:            {Line(order.Title)}",
        };
        if (order.CustomerReference.Length > 0)
        {
            lines.Add($"Your reference: {Line(order.CustomerReference)}");
        }

        lines.Add($"Our ticket:     {TrackingNumber.ForPeople(order.Number)}");
        lines.Add($"Asked for by:   {At(order.DueUtc)}");
        if (status is not null)
        {
            lines.AddRange(["", "See how far it is:", status]);
        }

        lines.AddRange(["", site, "", "This message was sent by a program. You can answer it: a person reads the answer."]);
        return string.Join("\r\n", lines);
    }

    /// <summary>"Thu 26 Nov 2026, 14:00 (UTC+01:00)".</summary>
    public static string Moment(DateTime utc, TimeZoneInfo zone)
    {
        var offset = zone.GetUtcOffset(utc);
        return $"{SiteClock.MomentWithYear(utc, zone)} (UTC{(offset < TimeSpan.Zero ? '-' : '+')}{offset:hh\\:mm})";
    }

    // One line: what comes from others can begin none of its own.
    private static string Line(string text)
    {
        var line = string.Join(' ', string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c)).Split(' ', StringSplitOptions.RemoveEmptyEntries));
        return line.Length <= LongestTitle ? line : line[..LongestTitle] + "…";
    }
}
