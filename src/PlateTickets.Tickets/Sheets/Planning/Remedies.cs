using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Replanning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>What could be done for a ticket that is late or at risk.</summary>
public enum RemedyKind
{
    Rush = 1,

    /// <summary>A machine that is down comes back now.</summary>
    MachineBack = 2,

    /// <summary>People stay after the shift.</summary>
    Overtime = 3,

    /// <summary>One more operator comes in now, until the shift ends.</summary>
    MoreHands = 4,
}

/// <summary>What a remedy does, as the plan computes it.</summary>
/// <param name="Kind">What is done.</param>
/// <param name="EquipmentId">The machine that comes back; null for the others.</param>
/// <param name="People">How many stay or come.</param>
/// <param name="UntilUtc">Until when they are there.</param>
/// <param name="BeforeUtc">The ticket's planned finish as things are.</param>
/// <param name="AfterUtc">With the remedy.</param>
/// <param name="InTime">The ticket is then done by its due time.</param>
/// <param name="MadeLate">Other tickets that come late only because of it.</param>
public sealed record Remedy(
    RemedyKind Kind, int? EquipmentId, int People, DateTime? UntilUtc, DateTime BeforeUtc, DateTime AfterUtc, bool InTime, int MadeLate);

/// <summary>The best remedy found for a ticket; null where none of what was tried helps.</summary>
/// <param name="Tried">What was tried.</param>
public sealed record TicketHelp(Remedy? Best, IReadOnlyList<RemedyKind> Tried);

/// <summary>
/// Tries on the newest plan what would help the tickets that are late or at risk: the same question as What if, with the plan carried on
/// but not searched for long. Asked in the background, once for everybody.
/// </summary>
public sealed class Remedies(RoomCatalog rooms, PlanBook book, TimeProvider clock)
{
    /// <summary>For so many tickets at most: more do not fit on a board.</summary>
    public const int MostTickets = 8;

    // Less is within what a plan moves by anyway.
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(5);
    private static readonly TimeSpan Overtime = TimeSpan.FromHours(2);

    private volatile IReadOnlyDictionary<int, TicketHelp> _now = new Dictionary<int, TicketHelp>();

    /// <summary>Told when other remedies were found.</summary>
    public event Action? Changed;

    /// <summary>By ticket; those that were not looked at yet are missing.</summary>
    public IReadOnlyDictionary<int, TicketHelp> Now => _now;

    /// <summary>Looks again at what is late or at risk now.</summary>
    public async Task LookAsync(CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        if (book.Now is not { } plan)
        {
            Set(new Dictionary<int, TicketHelp>());
            return;
        }

        Set(await Task.Run(() => Of(room, plan, clock.GetUtcNow().UtcDateTime, cancel), cancel));
    }

    private static Dictionary<int, TicketHelp> Of(Room room, RoomPlan plan, DateTime nowUtc, CancellationToken cancel)
    {
        var live = plan.Live;
        var before = WhatIf.Ends(live);
        var wanted = live.Request.Tickets
            .Where(t => before[t.Id] > t.DueUtc || plan.Outlooks.GetValueOrDefault(t.Id)?.LateChance >= Board.LatenessRules.RiskFrom)
            .OrderByDescending(t => before[t.Id] > t.DueUtc).ThenByDescending(t => before[t.Id] - t.DueUtc)
            .Take(MostTickets).ToList();
        if (wanted.Count == 0)
        {
            return [];
        }

        // What does not depend on the ticket is planned once for all of them.
        var general = General(room, live.Request, nowUtc).Select(g => (g.Kind, g.Equipment, g.People, g.UntilUtc, Ends: Try(room, live, g.Scenario))).ToList();
        var found = new Dictionary<int, TicketHelp>();
        foreach (var ticket in wanted)
        {
            cancel.ThrowIfCancellationRequested();
            var ways = general.ToList();
            if (ticket.Weight < Orders.Ticket.RushWeight)
            {
                ways.Insert(0, (RemedyKind.Rush, null, 0, null, Try(room, live, new Scenario { Rushed = [ticket.Id] })));
            }

            var best = ways.Where(w => w.Ends is not null)
                .Select(w => new Remedy(
                    w.Kind, w.Equipment, w.People, w.UntilUtc, before[ticket.Id], w.Ends![ticket.Id], w.Ends[ticket.Id] <= ticket.DueUtc,
                    live.Request.Tickets.Count(t => t.Id != ticket.Id && before[t.Id] <= t.DueUtc && w.Ends[t.Id] > t.DueUtc)))
                .Where(r => r.BeforeUtc - r.AfterUtc >= Least)
                .OrderByDescending(r => r.InTime).ThenBy(r => r.MadeLate).ThenBy(r => r.AfterUtc).ThenBy(r => r.Kind)
                .FirstOrDefault();
            found[ticket.Id] = new TicketHelp(best, [.. ways.Select(w => w.Kind).Distinct()]);
        }

        return found;
    }

    private static IEnumerable<(RemedyKind Kind, int? Equipment, int People, DateTime? UntilUtc, Scenario Scenario)> General(Room room, PlanRequest request, DateTime nowUtc)
    {
        foreach (var machine in request.Downtime.Where(d => d.FromUtc <= request.NowUtc && d.ToUtc > nowUtc + Least).Select(d => d.EquipmentId).Distinct())
        {
            yield return (RemedyKind.MachineBack, machine, 0, null, new Scenario { Up = [machine] });
        }

        // Somebody can only stay who is there now.
        if (ShiftDays.At(room.ShiftsBetween(nowUtc.AddDays(-1), nowUtc.AddDays(1)), nowUtc) is { } shift)
        {
            var people = room.Site.Shifts.FirstOrDefault(s => s.Name == shift.Name)?.Operators ?? 1;
            var until = shift.EndUtc + Overtime;
            if (room.CountsOperators)
            {
                yield return (RemedyKind.MoreHands, null, 1, shift.EndUtc, new Scenario { People = [new HeadcountChange(request.NowUtc, shift.EndUtc, 1)] });
            }

            yield return (RemedyKind.Overtime, null, people, until, new Scenario { People = [new HeadcountChange(shift.EndUtc, until, people)] });
        }
    }

    // Null where no plan is left: then it is no help.
    private static Dictionary<int, DateTime>? Try(Room room, LivePlan live, Scenario scenario)
    {
        try
        {
            return WhatIf.Ends(LivePlan.Start(WhatIf.With(room, live.Request, scenario), live.Plan, PlanRules.Usual with { HoldFor = TimeSpan.Zero }));
        }
        catch (PlanException)
        {
            return null;
        }
    }

    private void Set(IReadOnlyDictionary<int, TicketHelp> found)
    {
        _now = found;
        Changed?.Invoke();
    }
}
