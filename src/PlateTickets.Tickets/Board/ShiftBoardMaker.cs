using System.Collections.Immutable;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Board;

/// <summary>Everything a view is made of.</summary>
internal sealed record ShiftBoardInputs(
    BoardSnapshot Snapshot, Room Room, PlanBook Plan, IReadOnlyDictionary<int, TicketHelp> Helps, ShiftFacts Facts, ShiftDay? Shift, GoalsOfShift? Goals, DateTime NowUtc)
{
    public bool AtWork => Shift is { } shift && shift.StartUtc <= NowUtc && NowUtc < shift.EndUtc;

    public DateTime MinuteUtc => NowUtc.AddTicks(-(NowUtc.Ticks % TimeSpan.TicksPerMinute));

    public string At(DateTime utc) => SiteClock.Near(utc, NowUtc, Room.Zone);
}

/// <summary>Makes the board's view from its inputs; keeps what did not change.</summary>
internal static class ShiftBoardMaker
{
    /// <summary>Tickets that are worded; more are only counted.</summary>
    public const int MostUrgent = 60;

    private const int MostHolds = 30;

    public static ShiftBoardView Make(ShiftBoardInputs inputs, BoardFilter filter, ShiftBoardView? last)
    {
        var all = inputs.Snapshot.Sheets.Values;
        var sheets = filter.IsEmpty ? all.ToList() : all.Where(filter.Takes).ToList();
        var open = sheets.Where(s => s is { IsOpen: true, Stage: not null }).ToList();
        var tickets = Tickets(inputs, filter, open);
        var starts = HourLoads.Starts(inputs.NowUtc, inputs.Room.Zone);
        var view = new ShiftBoardView
        {
            Filter = filter,
            MinuteUtc = inputs.MinuteUtc,
            Head = Kept(last?.Head, Head(inputs, sheets, open, tickets)),
            Stations = Kept(last?.Stations, [.. Process.Stations.InOrder.Select(s => StationOf(inputs, filter, s, sheets, open))], r => (int)r.Station),
            Urgent = Kept(last?.Urgent, [.. Urgent(inputs, tickets)], r => r.TicketId),
            Machines = Kept(last?.Machines, [.. inputs.Room.Equipment.Select(e => MachineOf(inputs, e, all))], r => r.EquipmentId),
            Hours = Hours(last, [.. starts.Take(HourLoads.Hours).Select((s, i) => i == 0 ? "now" : SiteClock.Local(s, inputs.Room.Zone).ToString("HH", System.Globalization.CultureInfo.InvariantCulture))]),
            Load = Kept(last?.Load, [.. HourLoads.Of(inputs.Room, all.Where(s => s.IsOpen), starts)], r => r.Key),
            Remakes = Kept(last?.Remakes, [.. inputs.Facts.Remakes.Where(r => filter.Customer.Length == 0 || string.Equals(r.Customer, filter.Customer, StringComparison.OrdinalIgnoreCase)).Select(r => RemakeOf(inputs, r))], r => r.Id),
            Checks = Kept(last?.Checks, [.. DueChecks.Of(inputs.Room, inputs.Facts, inputs.NowUtc)], r => r.Key),
            Holds = Kept(last?.Holds, [.. Holds(filter, open)], r => r.TicketId),
            Sheets = Kept(last?.Sheets, [.. Process.Stations.InOrder.Select(s => SheetsOf(s, open))], r => (int)r.Station),
            Choices = Kept(last?.Choices, Choices(all)),
        };
        // Nothing that is shown changed: nobody needs to draw.
        return view == last ? last : view;
    }

    /// <summary>What the shift finishes by the plan, with what it has finished: of each station.</summary>
    public static Dictionary<Station, int> Expected(BoardSnapshot snapshot, ShiftDay shift) =>
        Process.Stations.InOrder.ToDictionary(s => s, s => snapshot.Sheets.Values.Sum(sheet => Finished(sheet, s, shift) + Planned(sheet, s, shift)));

    private static BoardHead Head(ShiftBoardInputs inputs, List<BoardSheet> sheets, List<BoardSheet> open, List<OpenTicket> tickets)
    {
        var shift = inputs.Shift;
        var text = shift is null ? "No shift is planned" : inputs.AtWork ? $"{shift.Name}, until {inputs.At(shift.EndUtc)}" : $"Nobody is there; next is {shift.Name}, from {inputs.At(shift.StartUtc)}";
        // Before the shift has begun there is nothing of it to count.
        var done = shift is null || !inputs.AtWork ? 0 : sheets.Count(s => s.State == SheetState.Done && s.DoneUtc >= shift.StartUtc);
        return new BoardHead(
            shift, inputs.AtWork, text, inputs.AtWork && inputs.Goals is { } goals ? $"Goal: the plan of {inputs.At(goals.TakenUtc)}" : "", People(inputs),
            tickets.Count(t => t.Lateness == Lateness.Late), tickets.Count(t => t.Lateness == Lateness.AtRisk), open.Count, done);
    }

    private static string People(ShiftBoardInputs inputs)
    {
        var room = inputs.Room;
        var changes = room.DutyChanges.Where(c => c.FromUtc <= inputs.NowUtc && inputs.NowUtc < c.ToUtc).Sum(c => c.People);
        if (!room.CountsOperators)
        {
            return changes == 0 ? "Operators are not counted" : Changed(changes);
        }

        var now = inputs.NowUtc;
        var there = room.ShiftsBetween(now.AddDays(-1), now.AddDays(1)).Where(s => s.StartUtc <= now && now < s.EndUtc)
            .Sum(s => room.Site.Shifts.FirstOrDefault(e => e.Name == s.Name)?.Operators ?? 0);
        var count = Math.Max(0, there + changes);
        return (count == 1 ? "1 operator on duty" : $"{count} operators on duty") + (changes == 0 ? "" : $" ({Changed(changes)})");
    }

    private static string Changed(int people) => people < 0 ? $"{-people} missing" : $"{people} more than usual";

    private static StationRow StationOf(ShiftBoardInputs inputs, BoardFilter filter, Station station, List<BoardSheet> sheets, List<BoardSheet> open)
    {
        var here = open.Where(s => s.Stage!.Station == station).ToList();
        var (finished, expected) = (0, 0);
        if (inputs is { AtWork: true, Shift: { } shift })
        {
            finished = sheets.Sum(s => Finished(s, station, shift));
            expected = finished + sheets.Sum(s => Planned(s, station, shift));
        }

        return new StationRow(
            station, here.Count(s => s.State == SheetState.Running), here.Count(s => s.State == SheetState.Waiting), here.Count(s => s.State == SheetState.OnHold),
            finished, inputs.AtWork && filter.IsEmpty ? inputs.Goals?.Sheets.GetValueOrDefault(station) : null, expected);
    }

    private static int Finished(BoardSheet sheet, Station station, ShiftDay shift) =>
        sheet.Passes.Any(p => p.Station == station && p.State == StageState.Done && p.IsWork && p.FinishUtc >= shift.StartUtc && p.FinishUtc < shift.EndUtc) ? 1 : 0;

    private static int Planned(BoardSheet sheet, Station station, ShiftDay shift) =>
        sheet.IsOpen && sheet.State != SheetState.OnHold && sheet.Passes.Any(p => p.Station == station && p.State != StageState.Done && p.FinishUtc <= shift.EndUtc) ? 1 : 0;

    private static List<OpenTicket> Tickets(ShiftBoardInputs inputs, BoardFilter filter, List<BoardSheet> open)
    {
        var found = new Dictionary<int, OpenTicket>();
        foreach (var sheet in open)
        {
            foreach (var ticket in sheet.Tickets.Where(t => filter.IsEmpty || filter.Takes(t)))
            {
                if (!found.TryGetValue(ticket.Id, out var known))
                {
                    found[ticket.Id] = known = new OpenTicket(ticket);
                }

                known.Add(sheet);
            }
        }

        foreach (var ticket in found.Values)
        {
            ticket.Chance = inputs.Plan.LateChance(ticket.Ticket.Id) is { } chance ? Math.Round(chance * 20) / 20 : null;
            // What is wholly on hold has no plan: it is late once its time is over, and not before.
            ticket.Lateness = ticket.AllHeld
                ? ticket.Ticket.DueUtc < inputs.NowUtc ? Lateness.Late : Lateness.OnTime
                : LatenessRules.Of(ticket.Ticket.DueUtc, ticket.Last.PlannedDoneUtc, ticket.Last.LastDueByUtc, inputs.NowUtc, inputs.Plan.LateChance(ticket.Ticket.Id));
        }

        return [.. found.Values];
    }

    private static IEnumerable<UrgentRow> Urgent(ShiftBoardInputs inputs, List<OpenTicket> tickets) => tickets
        .Where(t => t.Lateness != Lateness.OnTime)
        .OrderByDescending(t => t.Lateness).ThenByDescending(t => t.Lateness == Lateness.AtRisk ? t.Chance ?? 0 : 0).ThenBy(t => t.Spare ?? TimeSpan.MaxValue).ThenBy(t => t.Ticket.Id)
        .Take(MostUrgent)
        .Select(t => RowOf(inputs, t));

    private static UrgentRow RowOf(ShiftBoardInputs inputs, OpenTicket open)
    {
        var ticket = open.Ticket;
        var critical = inputs.Plan.Critical(ticket.Id);
        var why = open.AllHeld ? "is on hold" : critical is null ? "" : CriticalWords.Say(critical, inputs.Room, late: inputs.Plan.IsLate(ticket.Id));
        var sheet = open.Sheets.FirstOrDefault(s => s.Id == critical?.SheetId) ?? open.Last;
        // What lies ready in a machine needs no plan to be helped.
        var help = open.AllHeld ? "Let it go on"
            : sheet is { State: SheetState.Running, Stage: { RunEndsUtc: { } ends } stage } && ends <= inputs.NowUtc
                ? $"Take it out of {inputs.Room.EquipmentById(stage.EquipmentId)?.Name ?? "its machine"} now: its run is over since {inputs.At(ends)}"
            : inputs.Helps.TryGetValue(ticket.Id, out var found) ? RemedyWords.Say(found, inputs.Room, inputs.NowUtc) : "";
        return new UrgentRow(
            ticket.Id, ticket.Number, ticket.Customer, ticket.Title, open.Lateness, open.Spare, open.Chance, inputs.At(ticket.DueUtc),
            open.AllHeld ? "on hold" : open.Last.PlannedDoneUtc is { } planned ? inputs.At(planned) : "not planned yet",
            Where(sheet, open.Sheets.Count), why, help, ticket.IsRush, open.Sheets.Any(s => s.State == SheetState.Waiting));
    }

    private static string Where(BoardSheet sheet, int sheets)
    {
        var which = sheets > 1 ? $"Last of {sheets} sheets " : "";
        var at = sheet.Stage!.Station.Title().ToLowerInvariant();
        var text = sheet.State switch
        {
            SheetState.OnHold => $"on hold: {sheet.HoldReason}",
            SheetState.Running => $"in {at} now",
            _ => $"waits for {at}",
        };
        return which.Length > 0 ? which + text : char.ToUpperInvariant(text[0]) + text[1..];
    }

    private static MachineRow MachineOf(ShiftBoardInputs inputs, Equipment machine, IEnumerable<BoardSheet> all)
    {
        var now = inputs.NowUtc;
        var running = all.Where(s => s.State == SheetState.Running && s.Stage?.EquipmentId == machine.Id).OrderBy(s => s.Stage!.RunEndsUtc).ToList();
        var next = inputs.Room.Downtimes.Where(d => d.EquipmentId == machine.Id && d.FromUtc > now && d.FromUtc < now.AddHours(24) && d.ToUtc > d.FromUtc).MinBy(d => d.FromUtc);
        var soon = next is null ? "" : $"down from {inputs.At(next.FromUtc)} to {inputs.At(next.ToUtc)}{next.Because}";
        if (inputs.Room.DownAt(machine.Id, now) is { } down)
        {
            return new MachineRow(machine.Id, machine.Name, machine.Slug, true, $"until {inputs.At(down.ToUtc)}{down.Because}", soon);
        }

        var state = running.Count switch
        {
            0 when machine.Slots > 1 => $"0 of {machine.Slots} drawers taken",
            0 => "free",
            _ when machine.Slots > 1 => $"{running.Count} of {machine.Slots} drawers taken",
            1 => Until(inputs, running[0]),
            _ => $"{running.Count} sheets, the first {Until(inputs, running[0])}",
        };
        return new MachineRow(machine.Id, machine.Name, machine.Slug, false, state, soon);
    }

    private static string Until(ShiftBoardInputs inputs, BoardSheet sheet) => sheet.Stage!.RunEndsUtc is not { } ends ? "at work"
        : ends <= inputs.NowUtc ? $"over since {inputs.At(ends)}: take it out" : $"runs until {inputs.At(ends)}";

    private static RemakeRow RemakeOf(ShiftBoardInputs inputs, RemakeFact fact) => new(
        fact.Id, fact.TicketNumber, fact.Customer, fact.Colour, fact.Defect.Title(),
        fact.FoundAt is { } found ? $"found at {found.Title().ToLowerInvariant()}" : "found outside the plate room", inputs.At(fact.AtUtc));

    private static IEnumerable<HoldRow> Holds(BoardFilter filter, List<BoardSheet> open) => open
        .Where(s => s.State == SheetState.OnHold)
        .SelectMany(s => s.Tickets.Where(t => filter.IsEmpty || filter.Takes(t)).Select(t => (Ticket: t, Sheet: s)))
        .GroupBy(h => h.Ticket.Id)
        .OrderBy(g => g.First().Ticket.DueUtc)
        .Take(MostHolds)
        .Select(g => new HoldRow(g.Key, g.First().Ticket.Number, g.First().Ticket.Customer, g.First().Ticket.Title, g.Count(), g.First().Sheet.HoldReason));

    private static StationSheets SheetsOf(Station station, List<BoardSheet> open)
    {
        var here = open.Where(s => s.Stage!.Station == station).ToList();
        return new StationSheets(
            station, [.. here.Where(s => s.State == SheetState.Running).OrderBy(s => s.Stage!.RunEndsUtc)],
            [.. here.Where(s => s.State != SheetState.Running).OrderBy(s => s.State == SheetState.OnHold).ThenBy(s => s.Stage!.PlannedStartUtc ?? DateTime.MaxValue).ThenBy(s => s.Id).Take(ShiftBoard.MostSheets)]);
    }

    private static BoardChoices Choices(IEnumerable<BoardSheet> all)
    {
        var open = all.Where(s => s.IsOpen).ToList();
        return new BoardChoices(
            [.. open.SelectMany(s => s.Tickets.Select(t => t.Customer)).Distinct().Order()],
            [.. open.SelectMany(s => s.Tickets.Select(t => t.Press)).Distinct().Order()],
            [.. open.Select(s => s.Material).Distinct().Order()]);
    }

    private static ImmutableArray<string> Hours(ShiftBoardView? last, ImmutableArray<string> now) => last is not null && last.Hours.SequenceEqual(now) ? last.Hours : now;

    private static T Kept<T>(T? last, T now)
        where T : class => last is not null && last.Equals(now) ? last : now;

    // Each row is looked up by its key: one that looks as it did stays the same object, and the whole list too when all do.
    private static ImmutableArray<T> Kept<T, TKey>(ImmutableArray<T>? last, ImmutableArray<T> now, Func<T, TKey> key)
        where T : class
        where TKey : notnull
    {
        if (last is not { } before)
        {
            return now;
        }

        var known = before.ToDictionary(key);
        ImmutableArray<T> kept = [.. now.Select(r => known.TryGetValue(key(r), out var old) && old.Equals(r) ? old : r)];
        return kept.Length == before.Length && kept.Zip(before).All(p => ReferenceEquals(p.First, p.Second)) ? before : kept;
    }

    /// <summary>A ticket with its open sheets.</summary>
    private sealed class OpenTicket(BoardTicket ticket)
    {
        public BoardTicket Ticket { get; } = ticket;

        public List<BoardSheet> Sheets { get; } = [];

        public Lateness Lateness { get; set; }

        public double? Chance { get; set; }

        public bool AllHeld => Sheets.All(s => s.State == SheetState.OnHold);

        /// <summary>The sheet that is done last; what is not planned yet counts as last of all.</summary>
        public BoardSheet Last { get; private set; } = null!;

        public TimeSpan? Spare => AllHeld || Last.PlannedDoneUtc is not { } planned ? null : TimeSpan.FromMinutes(Math.Round((Ticket.DueUtc - planned).TotalMinutes));

        public void Add(BoardSheet sheet)
        {
            Sheets.Add(sheet);
            // A sheet on hold has old times: another one says more.
            if (Last is null || (Last.State == SheetState.OnHold && sheet.State != SheetState.OnHold)
                || (sheet.State != SheetState.OnHold && (sheet.PlannedDoneUtc ?? DateTime.MaxValue) > (Last.PlannedDoneUtc ?? DateTime.MaxValue)))
            {
                Last = sheet;
            }
        }
    }
}
