using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Replanning;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>What may happen, or be done, to the room.</summary>
public sealed record Scenario
{
    public IReadOnlyList<Downtime> Down { get; init; } = [];

    /// <summary>Operators more (overtime) or fewer (missing).</summary>
    public IReadOnlyList<HeadcountChange> People { get; init; } = [];

    /// <summary>Tickets that go before all others.</summary>
    public IReadOnlyList<int> Rushed { get; init; } = [];

    /// <summary>Tickets whose waiting sheets are set aside.</summary>
    public IReadOnlyList<int> Held { get; init; } = [];

    /// <summary>Machines that are down and come back now.</summary>
    public IReadOnlyList<int> Up { get; init; } = [];

    /// <summary>Tickets that go before others no longer.</summary>
    public IReadOnlyList<int> InTurn { get; init; } = [];

    /// <summary>Tickets with another due time.</summary>
    public IReadOnlyDictionary<int, DateTime> Due { get; init; } = new Dictionary<int, DateTime>();

    public bool IsEmpty => Down.Count + People.Count + Rushed.Count + Held.Count + Up.Count + InTurn.Count + Due.Count == 0;
}

/// <summary>The plan in a few figures.</summary>
/// <param name="LateTickets">Tickets that finish after their due time.</param>
/// <param name="LateMinutes">By how much, all together.</param>
/// <param name="DoneByShiftEnd">Sheets that are finished when the shift ends.</param>
/// <param name="ShiftFinishUtc">When the last work with hands of this shift is over; null when there is none.</param>
/// <param name="AllDoneUtc">When the last sheet is finished.</param>
public sealed record PlanFigures(int LateTickets, double LateMinutes, int DoneByShiftEnd, DateTime? ShiftFinishUtc, DateTime AllDoneUtc);

/// <summary>A ticket that finishes at another time, or is not planned any more.</summary>
public sealed record TicketShift(int TicketId, DateTime DueUtc, DateTime BeforeUtc, DateTime? AfterUtc)
{
    public bool WasLate => BeforeUtc > DueUtc;

    public bool IsLate => AfterUtc > DueUtc;
}

/// <summary>Before and after.</summary>
/// <param name="Before">The plan as it is.</param>
/// <param name="After">As it would be.</param>
/// <param name="ShiftEndUtc">The end of the shift that is meant: of this one, or of the next when nobody is there.</param>
/// <param name="Tickets">Those that move by a minute or more, the greatest delay first.</param>
public sealed record WhatIfAnswer(PlanFigures Before, PlanFigures After, DateTime ShiftEndUtc, IReadOnlyList<TicketShift> Tickets);

/// <summary>Plays a scenario through on the newest plan in memory; nothing is changed.</summary>
public sealed class WhatIf(RoomCatalog rooms, PlanBook book)
{
    // Both sides are searched for as long, so that the difference is the scenario's and not the search's.
    private static readonly TimeSpan Search = TimeSpan.FromMilliseconds(500);
    private static readonly TimeSpan Moved = TimeSpan.FromMinutes(1);

    /// <summary>Null while there is no plan.</summary>
    /// <exception cref="PlanException">Under the scenario no plan exists, such as when nobody is left to do the work.</exception>
    public async Task<WhatIfAnswer?> AskAsync(Scenario scenario, CancellationToken cancel = default)
    {
        if (book.Now?.Live is not { } live)
        {
            return null;
        }

        var room = await rooms.GetAsync(cancel);
        return await Task.Run(() => Compare(room, live, scenario, cancel), cancel);
    }

    /// <summary>The end of the shift at work, or of the next one.</summary>
    public static DateTime ShiftEnd(Room room, DateTime nowUtc)
    {
        // Breaks do not end a shift, so each shift is looked at from its first to its last working minute.
        var ends = room.Site.Shifts.Select(s => s.ToShift() with { Breaks = [] })
            .SelectMany(s => WorkingTime.FromShifts([s], room.Site.ClosedDays.Select(c => c.Day).ToHashSet(), room.Zone, nowUtc.AddDays(-1), nowUtc.AddDays(8)).Intervals)
            .Where(i => i.EndUtc > nowUtc)
            .ToList();
        return ends.Count == 0 ? nowUtc.AddHours(8) : ends.OrderBy(i => i.StartUtc > nowUtc).ThenBy(i => i.EndUtc).First().EndUtc;
    }

    private static WhatIfAnswer Compare(Room room, LivePlan live, Scenario scenario, CancellationToken cancel)
    {
        var before = live.Copy();
        var after = LivePlan.Start(With(room, live.Request, scenario), live.Plan, PlanRules.Usual with { HoldFor = TimeSpan.Zero });
        Parallel.Invoke(new ParallelOptions { CancellationToken = cancel }, () => Improve(before, cancel), () => Improve(after, cancel));
        var shiftEnd = ShiftEnd(room, live.Request.NowUtc);
        return new WhatIfAnswer(Figures(before, shiftEnd), Figures(after, shiftEnd), shiftEnd, Shifts(before, after));
    }

    private static void Improve(LivePlan plan, CancellationToken cancel) =>
        plan.Improve(new ImproveOptions(Search, Workers: 1), TimeProvider.System, cancel);

    /// <summary>The room as the scenario has it.</summary>
    internal static PlanRequest With(Room room, PlanRequest request, Scenario scenario)
    {
        var changes = room.DutyChanges.Select(c => new HeadcountChange(c.FromUtc, c.ToUtc, c.People)).Concat(scenario.People);
        var calendar = request.Working.Intervals;
        var duty = scenario.People.Count == 0 || calendar.Count == 0
            ? new DutyPlan(request.Working, request.Operators)
            : DutyPlan.Of(room, changes, calendar[0].StartUtc, calendar[^1].EndUtc);
        var held = request.Tickets.Where(t => scenario.Held.Contains(t.Id)).SelectMany(t => t.SheetIds).ToHashSet();
        var sheets = request.Sheets.Where(s => !held.Contains(s.Id) || s.Stages[0].Running is not null).ToList();
        if (scenario.Due.Count > 0)
        {
            var due = request.Tickets.SelectMany(t => t.SheetIds.Select(id => (Sheet: id, Due: scenario.Due.GetValueOrDefault(t.Id, t.DueUtc))))
                .GroupBy(s => s.Sheet).ToDictionary(g => g.Key, g => g.Min(s => s.Due));
            sheets = sheets.ConvertAll(s => s with { DueUtc = due.GetValueOrDefault(s.Id, s.DueUtc) });
        }

        var left = sheets.Select(s => s.Id).ToHashSet();
        return request with
        {
            Working = duty.Working,
            Operators = duty.Operators,
            Downtime = [.. request.Downtime.Where(d => d.FromUtc > request.NowUtc || !scenario.Up.Contains(d.EquipmentId)), .. scenario.Down],
            Sheets = sheets,
            Tickets = [.. request.Tickets
                .Select(t => t with
                {
                    SheetIds = [.. t.SheetIds.Where(left.Contains)],
                    Weight = scenario.Rushed.Contains(t.Id) ? Ticket.RushWeight : scenario.InTurn.Contains(t.Id) ? 1 : t.Weight,
                    DueUtc = scenario.Due.GetValueOrDefault(t.Id, t.DueUtc),
                })
                .Where(t => t.SheetIds.Count > 0)],
        };
    }

    private static PlanFigures Figures(LivePlan plan, DateTime shiftEnd)
    {
        var ends = Ends(plan);
        var late = plan.Request.Tickets.Where(t => ends[t.Id] > t.DueUtc).ToList();
        var lasts = plan.Plan.Stages.GroupBy(s => s.SheetId).Select(g => g.Max(s => s.FinishUtc)).ToList();
        var hands = plan.Plan.Stages.SelectMany(s => new[] { s.StartUtc, s.FinishUtc }).Where(t => t <= shiftEnd && t >= plan.Request.NowUtc).ToList();
        return new PlanFigures(
            late.Count, late.Sum(t => (ends[t.Id] - t.DueUtc).TotalMinutes), lasts.Count(l => l <= shiftEnd), hands.Count == 0 ? null : hands.Max(),
            lasts.Count == 0 ? plan.Request.NowUtc : lasts.Max());
    }

    private static List<TicketShift> Shifts(LivePlan before, LivePlan after)
    {
        var (was, now) = (Ends(before), Ends(after));
        var due = after.Request.Tickets.ToDictionary(t => t.Id, t => t.DueUtc);
        return [.. before.Request.Tickets
            .Select(t => new TicketShift(t.Id, due.GetValueOrDefault(t.Id, t.DueUtc), was[t.Id], now.TryGetValue(t.Id, out var end) ? end : null))
            .Where(s => s.AfterUtc is not { } end || (end - s.BeforeUtc).Duration() >= Moved)
            .OrderByDescending(s => s.IsLate && !s.WasLate).ThenByDescending(s => (s.AfterUtc ?? DateTime.MaxValue) - s.BeforeUtc)];
    }

    /// <summary>When the plan finishes each ticket.</summary>
    internal static Dictionary<int, DateTime> Ends(LivePlan plan)
    {
        var sheets = plan.Plan.Stages.GroupBy(s => s.SheetId).ToDictionary(g => g.Key, g => g.Max(s => s.FinishUtc));
        return plan.Request.Tickets.ToDictionary(t => t.Id, t => t.SheetIds.Max(id => sheets[id]));
    }
}
