using PlateTickets.Process;
using PlateTickets.Tickets.Handovers;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Handovers;

/// <summary>A cell of a table, with where it leads to.</summary>
internal sealed record HandoverCell(string Text, string? Address = null, bool IsNumber = false);

/// <summary>One part of a handover, ready for page and paper.</summary>
/// <param name="Title">Its heading.</param>
/// <param name="Columns">Heads of the columns.</param>
/// <param name="Rows">Cells of each row.</param>
/// <param name="Nothing">What is said when there is no row.</param>
/// <param name="More">What is left out; empty when nothing is.</param>
internal sealed record HandoverSection(string Title, IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<HandoverCell>> Rows, string Nothing, string More = "");

/// <summary>Puts the facts of a shift into words, once for page and paper: what presses first, what is done last.</summary>
internal static class HandoverText
{
    public static IReadOnlyList<HandoverSection> Sections(HandoverFacts facts, TimeZoneInfo zone)
    {
        string At(DateTime? utc) => utc is { } at ? SiteClock.Near(at, facts.AtUtc, zone) : "not planned";
        return
        [
            new(
                "Late or at risk", ["Ticket", "Job", "How", "Due", "Planned", "Why"],
                [.. facts.Endangered.Select(t => Row(Ticket(t.Number), new(Job(t.Customer, t.Title)), new(How(t)), new(At(t.DueUtc)), new(At(t.PlannedUtc)), new(t.Why.Length == 0 ? "" : $"It {t.Why}.")))],
                "Nothing is late and nothing is at risk."),
            new(
                "Machines down", ["Machine", "From", "Until", "Reason"],
                [.. facts.Down.Select(d => Row(new(d.Machine), new(At(d.FromUtc)), new(At(d.ToUtc)), new(d.Reason)))],
                "All machines are up."),
            new(
                "On hold, or not decided", ["Sheet", "Job", "Why"],
                [.. facts.Holds.Select(h => Row(Sheet(h.Sheet), new(Job(h.Customer, h.Title)), new(h.Reason)))],
                "Nothing is on hold, and every reading is decided."),
            new(
                "Runs on", ["Sheet", "Job", "Where", "Run ends"],
                [.. facts.Running.Select(r => Row(
                    Sheet(r.Sheet), new(Job(r.Customer, r.Title)), new($"{r.Station.Title()}, {r.Machine}{(r.Drawer is { } drawer ? $", drawer {drawer}" : "")}"),
                    new(At(r.EndsUtc) + (r.Overnight ? ", after the shift" : r.EndsUtc <= facts.AtUtc ? ", over: take it out" : ""))))],
                "No machine is at work."),
            new(
                "Waits", ["Sheet", "Job", "For", "Due by", "Planned start"],
                [.. facts.Waiting.Select(w => Row(Sheet(w.Sheet), new(Job(w.Customer, w.Title)), new(w.Station.Title()), new(At(w.DueByUtc)), new(At(w.PlannedStartUtc))))],
                "No sheet waits.", facts.WaitingCount > facts.Waiting.Count ? $"and {facts.WaitingCount - facts.Waiting.Count} more" : ""),
            new(
                "Remakes of this shift", ["Ticket", "Plate", "Defect", "Found", "Reason", "When, by"],
                [.. facts.Remakes.Select(r => Row(
                    Ticket(r.Ticket), new(Job(r.Customer, r.Colour)), new(r.Defect.Title()), new(r.FoundAt?.Title() ?? "outside the plate room"), new(r.Reason), new($"{At(r.AtUtc)}, {r.By}")))],
                "No plate was made again."),
            new(
                "Finished in this shift", ["Station", "Sheets", "Goal"],
                [.. facts.Finished.Select(f => Row(new(f.Station.Title()), new($"{f.Sheets}", IsNumber: true), new(f.Goal is { } goal ? $"{goal}" : "–", IsNumber: true)))],
                ""),
            new(
                "Tickets done in this shift", ["Ticket", "Job", "Done", "Due"],
                [.. facts.Tickets.Select(t => Row(Ticket(t.Number), new(Job(t.Customer, t.Title)), new(At(t.DoneUtc)), new(At(t.DueUtc) + (t.DoneUtc > t.DueUtc ? ", late" : ""))))],
                "No ticket was finished."),
        ];
    }

    /// <summary>"Early shift, Thu 26 Nov 2026, 06:00 – 14:00".</summary>
    public static string Title(string shift, DateTime startUtc, DateTime endUtc, TimeZoneInfo zone) =>
        $"{shift}, {SiteClock.MomentWithYear(startUtc, zone)} – {SiteClock.Near(endUtc, startUtc, zone)}";

    /// <summary>Who closed and who confirmed it.</summary>
    public static string Signed(Handover handover, TimeZoneInfo zone)
    {
        string At(DateTime? utc) => SiteClock.MomentWithYear(utc!.Value, zone);
        return handover.State switch
        {
            HandoverState.Draft => "Not handed over yet.",
            HandoverState.Closed => $"Handed over by {handover.ClosedBy}, {At(handover.ClosedUtc)}. Not confirmed yet.",
            _ => $"Handed over by {handover.ClosedBy}, {At(handover.ClosedUtc)}. Confirmed by {handover.ConfirmedBy}, {At(handover.ConfirmedUtc)}.",
        };
    }

    private static string How(EndangeredTicket ticket) => LatenessMark.TextOf(
        ticket.IsLate ? Tickets.Board.Lateness.Late : Tickets.Board.Lateness.AtRisk, ticket.PlannedUtc is { } planned ? ticket.DueUtc - planned : null, ticket.Chance);

    private static string Job(string customer, string title) => title.Length == 0 ? customer : $"{customer}: {title}";

    private static HandoverCell Ticket(string number) => new(TrackingNumber.ForPeople(number), Urls.Ticket(number), IsNumber: false);

    private static HandoverCell Sheet(string number) => new(TrackingNumber.ForPeople(number), Urls.Sheet(number));

    private static IReadOnlyList<HandoverCell> Row(params HandoverCell[] cells) => cells;
}
