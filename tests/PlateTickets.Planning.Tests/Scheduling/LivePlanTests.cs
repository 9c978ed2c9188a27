using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Planning.Scheduling.Replanning;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class LivePlanTests
{
    // Two machines alike; every sheet half an hour on one of them, and two minutes of loading.
    private static readonly PlanRequest Room = new(
        At(6), [Single(1), Single(2)], [.. Enumerable.Range(1, 6).Select(i => OnEither(i) with { DueUtc = At(9) })], Always)
    {
        Operators = [Always],
    };

    [Fact]
    public void Start_SameRequestAgain_GivesTheSamePlan()
    {
        var plan = Start(Room);
        Assert.Equal(plan.Stages, Start(Room, plan).Stages);
    }

    [Fact]
    public void Start_PlanThatHasLostItsOrder_IsMadeAgainFromItsStarts()
    {
        var plan = Start(Room);
        Assert.Equal(plan.Stages, Start(Room, plan with { Order = [] }).Stages);
    }

    [Fact]
    public void Start_MinuteLaterWithNothingChanged_MovesOnlyWhatShouldHaveBegun()
    {
        var plan = Start(Room);
        var begun = plan.Stages.Where(s => s.StartUtc == At(6)).Select(s => s.StageId).ToHashSet();
        var later = Start(Room with { NowUtc = At(6, 1) }, plan);
        Assert.All(plan.Stages.Where(s => begun.Contains(s.StageId)), s => Assert.Equal(At(6, 1), Of(later, s.StageId).StartUtc));
        Assert.All(plan.Stages, s => Assert.Equal(s.EquipmentId, Of(later, s.StageId).EquipmentId));
    }

    [Fact]
    public void Start_RushComes_WhatIsAboutToStartKeepsMachineAndStart()
    {
        var plan = Start(Room);
        var rush = OnEither(9) with { DueUtc = At(6, 31), Weight = 1000 };
        var with = Start(Room with { Sheets = [.. Room.Sheets, rush] }, plan);
        var soon = plan.Stages.Where(s => s.StartUtc <= At(6, 10)).ToList();
        Assert.Equal(2, soon.Count);
        Assert.All(soon, s => Assert.Equal(s, Of(with, s.StageId)));
        Assert.Equal(soon.Min(s => s.FinishUtc), Of(with, 9).StartUtc);
    }

    [Fact]
    public void Start_MachineBecameFreeSooner_WhatIsAboutToStartKeepsItsMinute()
    {
        var running = OnEither(7) with { Stages = [OnEither(7).Stages[0] with { Running = new RunningStage(1, At(5, 36)) }] };
        var room = new PlanRequest(At(6), [Single(1)], [running with { Stages = [On1(running.Stages[0])] }, Sheet(8, Stage(8, On(1, 2, 30, 0)))], Always);
        var plan = Start(room);
        Assert.Equal(At(6, 8), Of(plan, 8).StartUtc);
        Assert.Equal(At(6, 8), Of(Start(room with { NowUtc = At(6, 3), Sheets = [room.Sheets[1]] }, plan), 8).StartUtc);
    }

    [Fact]
    public void Start_MachineGoesDown_LetsGoOfWhatWasAboutToStartThere()
    {
        var plan = Start(Room);
        var moved = plan.Stages.First(s => s.StartUtc <= At(6, 10) && s.EquipmentId == 1);
        var request = Room with { Downtime = [new Downtime(1, At(6), At(8))] };
        var now = Start(request, plan);
        Assert.Empty(PlanChecker.Violations(request, now));
        Assert.Equal(2, Of(now, moved.StageId).EquipmentId);
    }

    [Fact]
    public void Start_DryerGoesDownBehindASheetThatMayNotLie_LetsGoOfItsWashoutToo()
    {
        var sheet = Sheet(1, Stage(11, On(1, 2, 10, 2)) with { LongestWaitAfter = Min(30) }, Stage(12, On(2, 2, 60, 2)));
        var room = new PlanRequest(At(6), [Single(1), Slots(2, 4)], [sheet], Always);
        var plan = Start(room);
        var down = Start(room with { Downtime = [new Downtime(2, At(6), At(8))] }, plan);
        Assert.Equal((At(6), At(7, 16)), (Of(plan, 11).StartUtc, Of(down, 11).StartUtc));
        Assert.Equal(At(8), Of(down, 12).StartUtc);
    }

    [Fact]
    public void Start_MuchBetterPlanIsKnown_ChangesToIt()
    {
        var room = new PlanRequest(At(6), [Single(1)], [Alone(1, 20), Alone(2, 300), Alone(3, 10) with { Weight = 2 }], Always);
        var last = InOrder(room, 1, 2, 3);
        var plan = Start(room, last);
        Assert.Equal([1, 3, 2], plan.Stages.OrderBy(s => s.StartUtc).Select(s => s.SheetId));
    }

    [Fact]
    public void Start_HardlyBetterPlanIsKnown_StaysWithTheOldOne()
    {
        // The other order of 2 and 3 saves three minutes of nearly a day.
        var room = new PlanRequest(At(6), [Single(1)], [Alone(1, 20), Alone(2, 300), Alone(3, 300) with { Weight = 1.01 }], Always);
        var last = InOrder(room, 1, 2, 3);
        Assert.Equal(2, DispatchPlanner.Build(room).Stages.MaxBy(s => s.StartUtc)!.SheetId);
        Assert.Equal(last.Stages.Select(s => s.StartUtc), Start(room, last).Stages.Select(s => s.StartUtc));
    }

    [Fact]
    public void Improve_FindsAMuchBetterPlan_AndKeepsWhatIsAboutToStart()
    {
        var room = new PlanRequest(At(6), [Single(1)], [Alone(1, 400), Alone(2, 300), Alone(3, 200), Alone(4, 100)], Always);
        var live = LivePlan.Start(room, InOrder(room, 1, 2, 3, 4), PlanRules.Usual with { LeastGain = 0.9 });
        Assert.Equal(1, live.Plan.Stages.MinBy(s => s.StartUtc)!.SheetId);
        var eager = LivePlan.Start(room, live.Plan);
        eager.Improve(new ImproveOptions(TimeSpan.FromMilliseconds(50), Workers: 1), TimeProvider.System);
        Assert.Equal([1, 4, 3, 2], eager.Plan.Stages.OrderBy(s => s.StartUtc).Select(s => s.SheetId));
    }

    [Theory]
    [InlineData(1000, 0, 930, 0, true)]
    [InlineData(1000, 0, 950, 0, false)]
    [InlineData(100_000, 0, 99_100, 0, false)]
    [InlineData(100_000, 0, 98_900, 0, true)]
    [InlineData(500, 100_000, 500, 98_900, true)]
    [InlineData(500, 100_000, 500, 99_100, false)]
    [InlineData(500, 100_000, 501, 10_000, false)]
    public void IsWorth_AsksForAMinuteAndOnePercent(double main, double then, double newMain, double newThen, bool worth) =>
        Assert.Equal(worth, PlanRules.Usual.IsWorth(new PlanCost(newMain, newThen, 0), new PlanCost(main, then, 0)));

    private static Plan Start(PlanRequest request, Plan? last = null)
    {
        var plan = LivePlan.Start(request, last).Plan;
        Assert.Empty(PlanChecker.Violations(request, plan));
        return plan;
    }

    private static PlannedStage Of(Plan plan, int stage) => plan.Stages.Single(s => s.StageId == stage);

    private static PlanSheet OnEither(int id) => Sheet(id, Stage(id, On(1, 2, 30, 0), On(2, 2, 30, 0)));

    private static PlanStage On1(PlanStage stage) => stage with { Options = [stage.Options[0]] };

    // Late from the beginning, so that every minute counts.
    private static PlanSheet Alone(int id, double minutes) => Sheet(id, Stage(id, On(1, 0, minutes, 0))) with { DueUtc = At(5) };

    private static Plan InOrder(PlanRequest room, params int[] ids)
    {
        var (at, stages) = (room.NowUtc, new List<PlannedStage>());
        foreach (var id in ids)
        {
            var finish = at + room.Sheets.Single(s => s.Id == id).Stages[0].Options[0].Run;
            stages.Add(new PlannedStage(id, id, 1, at, finish, At(5)));
            at = finish;
        }

        return new Plan(stages);
    }
}
