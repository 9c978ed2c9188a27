using CsCheck;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Planning.Scheduling.Engine;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Planning.Scheduling.Replanning;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class PromisingTests
{
    [Fact]
    public void Ask_EmptyRoom_PromisesTheOrdersOwnTime()
    {
        var live = LivePlan.Start(new PlanRequest(At(6), [Single(1), Slots(2, 2)], [], Always));
        var answer = Promising.Ask(live, [Sheet(1, Stage(1, On(1, 2, 20, 1)) with { LeastWaitAfter = Min(5) }, Stage(2, On(2, 1, 60, 1)))]);
        Assert.Equal(At(7, 30), answer.InTurn.PlannedUtc);
        Assert.Equal(At(7, 30), answer.Rush.PlannedUtc);
        Assert.Equal(new FinishSpread(At(7, 30), At(7, 30), At(7, 30)), answer.InTurn.Finish);
    }

    [Fact]
    public void Ask_OrderOfTwoSheets_IsDoneWithTheLastOne() =>
        Assert.Equal(At(8), Promising.Ask(LivePlan.Start(new PlanRequest(At(6), [Single(1)], [], Always)), [Hour(1), Hour(2)]).InTurn.PlannedUtc);

    [Fact]
    public void Ask_RoomWithTimeLeft_GoesAheadOfWhatCanWait()
    {
        // Ticket 1 is due at eleven and needs an hour; ticket 2 is due at eight and begins at once.
        var room = new PlanRequest(At(6), [Single(1)], [Hour(1), Hour(2)], Always)
        {
            Tickets = [new PlanTicket(1, At(11), 1, [1]), new PlanTicket(2, At(7), 1, [2])],
        };
        var answer = Promising.Ask(LivePlan.Start(room with { Sheets = [Hour(1) with { DueUtc = At(11) }, Hour(2) with { DueUtc = At(7) }] }), [Hour(3)]);
        Assert.Equal(At(8), answer.InTurn.PlannedUtc);
        Assert.Empty(answer.InTurn.Pushed);
    }

    [Fact]
    public void Ask_RoomWithoutTimeLeft_ComesLastInTurnAndPushesOthersInARush()
    {
        // Four tickets back to back, each due when it is done. The first is under way within ten minutes and stays.
        var sheets = Enumerable.Range(1, 4).Select(i => Hour(i) with { DueUtc = At(6 + i) }).ToList();
        var live = LivePlan.Start(new PlanRequest(At(6), [Single(1)], sheets, Always) { Tickets = [.. sheets.Select(s => new PlanTicket(10 * s.Id, s.DueUtc, 1, [s.Id]))] });
        live = LivePlan.Start(live.Request, live.Plan);
        var answer = Promising.Ask(live, [Hour(9) with { Stages = [Stage(90, On(1, 0, 30, 0))] }]);
        Assert.Equal((At(10, 30), At(7, 30)), (answer.InTurn.PlannedUtc, answer.Rush.PlannedUtc));
        Assert.Empty(answer.InTurn.Pushed);
        Assert.Equal([20, 30, 40], answer.Rush.Pushed.Select(p => p.TicketId).Order());
        Assert.All(answer.Rush.Pushed, p => Assert.Equal((p.DueUtc, p.DueUtc + Min(30)), (p.BeforeUtc, p.AfterUtc)));
    }

    [Fact]
    public void Ask_TicketThatIsLateAnyway_IsNotCalledPushed()
    {
        var room = new PlanRequest(At(6), [Single(1)], [Hour(1), Hour(2)], Always) { Tickets = [new PlanTicket(1, At(6), 1, [1]), new PlanTicket(2, At(6), 1, [2])] };
        Assert.Empty(Promising.Ask(LivePlan.Start(room), [Hour(3)]).Rush.Pushed);
    }

    [Fact]
    public void Ask_SpreadOfTimes_PromisesLaterTheSurerItIs()
    {
        var sheet = Sheet(1, Stage(1, On(1, 0, 100, 0)) with { Spread = new TimeSpread(0, 0.2) });
        var finish = Promising.Ask(LivePlan.Start(new PlanRequest(At(6), [Single(1)], [], Always)), [sheet], runs: 2000).InTurn.Finish;
        // Quantiles of the lognormal distribution at 0, 0.8416 and 1.6449 (table 26.1 of Abramowitz and Stegun, 1964, from memory).
        Assert.All([(0, finish.Half), (0.8416, finish.Eighty), (1.6449, finish.NinetyFive)], q => Assert.Equal(100 * Math.Exp(0.2 * q.Item1), (q.Item2 - At(6)).TotalMinutes, 3.0));
    }

    [Fact]
    public void Ask_PlanIsAsked_AndNotChanged()
    {
        var live = LivePlan.Start(new PlanRequest(At(6), [Single(1)], [Hour(1)], Always));
        var before = live.Plan.Stages.ToList();
        Promising.Ask(live, [Hour(2)]);
        Assert.Equal(before, live.Plan.Stages);
        Assert.Equal(Promising.Ask(live, [Hour(2)]).InTurn.Finish, Promising.Ask(live, [Hour(2)]).InTurn.Finish);
    }

    [Fact]
    public void Ask_CalendarEndsBeforeTheOrderIsPlaced_IsRefusedWithTheReason()
    {
        var live = LivePlan.Start(new PlanRequest(At(6), [Single(1)], [], new WorkingTime([new WorkingInterval(At(6), At(7))])));
        Assert.Contains("must reach further", Assert.Throws<PlanException>(() => Promising.Ask(live, [Sheet(1, Stage(1, On(1, 5, 120, 5)))])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Ask_NoSheets_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Promising.Ask(LivePlan.Start(new PlanRequest(At(6), [Single(1)], [], Always)), []));

    [Fact]
    public void Both_answers_keep_every_rule_and_in_turn_makes_nobody_late() =>
        Gen.Select(RandomRoom.FullRequests, RandomRoom.FullRequests, Gen.Int[0, 300]).Where(r => r.Item2.Sheets.Count > 1).Sample(
            (request, other, minutes) =>
            {
                var first = LivePlan.Start(request);
                var later = LivePlanRandomTests.GoneOn(request, first.Plan, minutes, minutes);
                var live = LivePlan.Start(later, first.Plan);
                var order = other.Sheets.Take(2).Select(s => New(s, later)).ToList();
                var (shop, inTurn, rush) = Promising.Place(live, order);
                Assert.Empty(PlanChecker.Violations(shop.Request, Published.Plan(shop, inTurn)));
                Assert.Empty(PlanChecker.Violations(shop.Request, Published.Plan(shop, rush)));
                Assert.True(inTurn.Cost.Main <= live.Plan.Cost.Main + TooLong(shop, inTurn, order));
                var answer = Promising.Ask(live, order, runs: 2);
                Assert.Empty(answer.InTurn.Pushed);
                Assert.True(answer.Rush.PlannedUtc <= answer.InTurn.PlannedUtc);
                AssertPushed(shop, live, Published.Plan(shop, rush), answer.Rush.Pushed);
            },
            iter: 300);

    private static PlanSheet Hour(int id) => Sheet(id, Stage(id, On(1, 0, 60, 0)));

    // Made a sheet that nobody knows yet, on the machines of the room.
    private static PlanSheet New(PlanSheet sheet, PlanRequest room) => sheet with
    {
        Id = sheet.Id + 1000,
        Stages = [.. sheet.Stages.Select(t => t with
        {
            Id = t.Id + 10_000,
            Running = null,
            Options = [.. t.Options.Select(o => o with { EquipmentId = o.EquipmentId % room.Equipment.Count }).DistinctBy(o => o.EquipmentId)],
        })],
    };

    // The new order itself may have to lie too long: that is a cost of its own.
    private static double TooLong(Shop shop, Draft draft, List<PlanSheet> order)
    {
        var ids = order.Select(s => s.Id).ToHashSet();
        return 1 + (10 * LongWaits.Of(shop.Request, Published.Plan(shop, draft)).Where(w => ids.Contains(w.SheetId)).Sum(w => w.TooLong.TotalSeconds));
    }

    // Counted from the two plans alone.
    private static void AssertPushed(Shop shop, LivePlan live, Plan after, IReadOnlyList<PushedTicket> pushed)
    {
        var (was, now) = (Ends(live.Plan), Ends(after));
        var late = live.Request.Tickets
            .Select(t => (t.Id, t.DueUtc, Sheets: t.SheetIds.Where(was.ContainsKey).ToList()))
            .Where(t => t.Sheets.Count > 0 && t.Sheets.Max(s => was[s]) <= t.DueUtc && t.Sheets.Max(s => now[s]) > t.DueUtc);
        Assert.Equal(late.Select(t => t.Id).Order(), pushed.Select(p => p.TicketId).Order());
        Assert.Equal(pushed.OrderByDescending(p => p.AfterUtc - p.DueUtc).Select(p => p.TicketId), pushed.Select(p => p.TicketId));
        Assert.All(pushed, p => Assert.True(p.BeforeUtc <= p.DueUtc && p.DueUtc < p.AfterUtc && p.BeforeUtc > shop.Origin));
    }

    private static Dictionary<int, DateTime> Ends(Plan plan) => plan.Stages.GroupBy(s => s.SheetId).ToDictionary(g => g.Key, g => g.Max(s => s.FinishUtc));
}
