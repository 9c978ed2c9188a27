using System.Net;
using System.Runtime.CompilerServices;
using System.Text;
using Microsoft.AspNetCore.Components;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Board;

/// <summary>A sheet's card as every viewer sees it.</summary>
/// <param name="Class">Of the card.</param>
/// <param name="Html">What is in it.</param>
public sealed record BoardCard(string Class, MarkupString Html);

/// <summary>Writes the cards, each once for all viewers: a component for each card and viewer took half a megabyte of every viewer's memory.</summary>
internal static class CardHtml
{
    private static readonly ConditionalWeakTable<BoardSheet, Written> Cards = [];

    /// <param name="sheet">The sheet; another state of it is another object.</param>
    /// <param name="room">For names and times.</param>
    /// <param name="minuteUtc">A whole minute: until its words change the same card is given.</param>
    public static BoardCard Of(BoardSheet sheet, Room room, DateTime minuteUtc)
    {
        var (now, lateness) = (NowText(sheet, room, minuteUtc), LatenessRules.Of(sheet, minuteUtc));
        if (Cards.TryGetValue(sheet, out var written) && written.Now == now && written.Lateness == lateness)
        {
            return written.Card;
        }

        var card = new BoardCard(
            $"board-card {sheet.State.ToString().ToLowerInvariant()} {lateness.ToString().ToLowerInvariant()}", new MarkupString(Write(sheet, room, now, lateness, minuteUtc)));
        Cards.AddOrUpdate(sheet, new Written(now, lateness, card));
        return card;
    }

    private static string Write(BoardSheet sheet, Room room, string now, Lateness lateness, DateTime nowUtc)
    {
        var first = sheet.Tickets[0];
        var html = new StringBuilder();
        html.Append("<div class=\"top\"><a class=\"number\" href=\"").Append(Safe(Urls.Ticket(first.Number))).Append("\">").Append(Safe(TrackingNumber.ForPeople(sheet.Number))).Append("</a>");
        if (room.EquipmentById(sheet.Stage?.EquipmentId) is { } machine)
        {
            html.Append("<span class=\"machine-name\">").Append(Safe(machine.Name)).Append("</span>");
        }

        html.Append("</div><p class=\"job\"><strong>").Append(Safe(first.Customer)).Append("</strong> ").Append(Safe(first.Title))
            .Append(sheet.Tickets.Count > 1 ? $" and {sheet.Tickets.Count - 1} more" : "").Append("</p><p class=\"quiet\">").Append(Safe(string.Join(", ", sheet.Colours)))
            .Append("</p><p class=\"now\">").Append(Safe(now)).Append("</p>");
        if (lateness != Lateness.OnTime)
        {
            html.Append("<p class=\"lateness ").Append(lateness.ToString().ToLowerInvariant()).Append("\">").Append(lateness == Lateness.Late ? "■ " : "◆ ")
                .Append(Safe(LatenessMark.TextOf(lateness, sheet.DueUtc - sheet.PlannedDoneUtc, sheet.LateChance))).Append("</p>");
        }

        return html.Append("<p class=\"quiet\">due ").Append(Safe(SiteClock.Near(sheet.DueUtc, nowUtc, room.Zone))).Append("</p>").ToString();
    }

    private static string NowText(BoardSheet sheet, Room room, DateTime nowUtc) => sheet.State switch
    {
        SheetState.OnHold => $"On hold: {sheet.HoldReason}",
        SheetState.Running when sheet.Stage!.RunEndsUtc is { } ends => ends <= nowUtc
            ? $"Run over since {SiteClock.Near(ends, nowUtc, room.Zone)}: take it out"
            : $"Running until {SiteClock.Near(ends, nowUtc, room.Zone)}",
        _ when sheet.Stage?.PlannedStartUtc is { } start => start < nowUtc
            ? $"Should have started {SiteClock.Near(start, nowUtc, room.Zone)}"
            : $"Starts {SiteClock.Near(start, nowUtc, room.Zone)}",
        _ => "Not planned yet",
    };

    private static string Safe(string text) => WebUtility.HtmlEncode(text);

    private sealed record Written(string Now, Lateness Lateness, BoardCard Card);
}
