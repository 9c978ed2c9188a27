using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>What the planner does about waits that may not be long, downtime, counted operators and sets.</summary>
public sealed class PlanBehaviourTests
{
    [Fact]
    public void Build_DryerIsFullForLong_PutsTheWashoutOffSoThatTheSheetNeedNotLie()
    {
        var drying = Sheet(1, Stage(1, On(2, 0, 180, 0)) with { Running = new RunningStage(2, At(5, 30)) });
        var sheet = Sheet(2, Stage(21, On(1, 2, 10, 2)) with { LongestWaitAfter = Min(30) }, Stage(22, On(2, 2, 60, 2)));
        var plan = Plan(new PlanRequest(At(6), [Single(1), Single(2)], [drying, sheet], Always));
        Assert.Equal((At(7, 46), At(8, 0), At(8, 30)), (plan[21].StartUtc, plan[21].FinishUtc, plan[22].StartUtc));
    }

    [Fact]
    public void Build_SheetThatLiesAlready_ComesTooLateAndThePlanSaysByHowMuch()
    {
        var drying = Sheet(1, Stage(1, On(2, 0, 180, 0)) with { Running = new RunningStage(2, At(5, 30)) });
        var washing = Sheet(2, Stage(21, On(1, 2, 30, 2)) with { Running = new RunningStage(1, At(5, 40)), LongestWaitAfter = Min(30) }, Stage(22, On(2, 2, 60, 2)));
        var request = new PlanRequest(At(6), [Single(1), Single(2)], [drying, washing with { Weight = 2 }], Always);
        var plan = DispatchPlanner.Build(request);
        Assert.Empty(PlanChecker.Violations(request, plan));
        var wait = Assert.Single(LongWaits.Of(request, plan));
        // Out of the washer at 6:14, into the dryer at 8:30, where half an hour was allowed.
        Assert.Equal(new LongWait(2, 22, Min(136 - 30)), wait);
        Assert.Equal(2 * 10 * 106 * 60, plan.Cost.Main);
    }

    [Fact]
    public void Build_MachineGoesDownSoon_TakesWhatFitsBeforeAndTheRestAfter()
    {
        var request = new PlanRequest(At(6), [Single(1)], [Sheet(1, Stage(1, On(1, 2, 40, 2))), Sheet(2, Stage(2, On(1, 2, 40, 2)))], Always)
        {
            Downtime = [new Downtime(1, At(7), At(8))],
        };
        Assert.Equal([At(6), At(8)], Plan(request).Values.Select(s => s.StartUtc).Order());
    }

    [Fact]
    public void Build_LineGoesDown_TakesNothingThatWouldStillBeInside()
    {
        var request = new PlanRequest(At(6), [Line(1, 20)], [Sheet(1, Stage(1, On(1, 2, 40, 2, 8))), Sheet(2, Stage(2, On(1, 2, 40, 2, 8)))], Always)
        {
            Downtime = [new Downtime(1, At(6, 45), At(8))],
        };
        Assert.Equal([At(6), At(8)], Plan(request).Values.Select(s => s.StartUtc).Order());
    }

    [Theory]
    [InlineData(1, 20)]
    [InlineData(2, 0)]
    public void Build_TwoLoadsAtOnce_NeedTwoOperators(int operators, int secondAfterMinutes)
    {
        var request = new PlanRequest(At(6), [Single(1), Single(2)], [Sheet(1, Stage(1, On(1, 20, 60, 0))), Sheet(2, Stage(2, On(2, 20, 60, 0)))], Always)
        {
            Operators = [.. Enumerable.Repeat(Always, operators)],
        };
        Assert.Equal([At(6), At(6, secondAfterMinutes)], Plan(request).Values.Select(s => s.StartUtc).Order());
    }

    [Fact]
    public void Build_OperatorUnloadsTwoMachinesThatEndTogether_OneAfterTheOther()
    {
        var request = new PlanRequest(At(6), [Single(1), Single(2)], [Sheet(1, Stage(1, On(1, 0, 60, 10))), Sheet(2, Stage(2, On(2, 0, 60, 10)))], Always)
        {
            Operators = [Always],
        };
        Assert.Equal([At(7, 10), At(7, 20)], Plan(request).Values.Select(s => s.FinishUtc).Order());
    }

    // Three sheets of one ticket, an hour each on one machine, due after an hour: the ticket is two hours late, once.
    [Fact]
    public void Build_SetOfThreeSheets_IsLateOnceAndWithItsLastSheet()
    {
        PlanSheet[] sheets = [.. Enumerable.Range(1, 3).Select(i => Sheet(i, Stage(i, On(1, 0, 60, 0))) with { DueUtc = At(7) })];
        var set = new PlanRequest(At(6), [Single(1)], sheets, Always) { Tickets = [new PlanTicket(1, At(7), 3, [1, 2, 3])] };
        Assert.Equal(3 * 2 * 3600, DispatchPlanner.Build(set).Cost.Main);
        Assert.Equal((1 + 2) * 3600, DispatchPlanner.Build(set with { Tickets = [] }).Cost.Main);
    }

    [Fact]
    public void Build_SheetOfTwoTickets_CountsForBoth()
    {
        var request = new PlanRequest(At(6), [Single(1)], [Sheet(1, Stage(1, On(1, 0, 60, 0)))], Always)
        {
            Tickets = [new PlanTicket(1, At(6, 30), 1, [1]), new PlanTicket(2, At(6, 45), 2, [1])],
        };
        Assert.Equal((30 * 60) + (2 * 15 * 60), DispatchPlanner.Build(request).Cost.Main);
    }
}
