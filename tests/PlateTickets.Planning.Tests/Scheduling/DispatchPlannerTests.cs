using PlateTickets.Planning.Scheduling;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class DispatchPlannerTests
{
    [Fact]
    public void Build_LoadingThatWouldRunIntoTheBreak_StartsAfterIt()
    {
        var plan = Plan(new PlanRequest(At(9, 50), [Single(1)], [Sheet(1, Stage(1, On(1, 11, 20, 5)))], EarlyShift));
        Assert.Equal((At(10, 30), At(11, 6)), (plan[1].StartUtc, plan[1].FinishUtc));
    }

    [Fact]
    public void Build_DryingStartedInTheEvening_RunsOvernightAndIsTakenOutInTheMorning()
    {
        var plan = Plan(new PlanRequest(At(13, 50), [Slots(1, 4)], [Sheet(1, Stage(1, On(1, 5, 120, 3)))], EarlyShift));
        Assert.Equal((At(13, 50), At(6, 3, 1)), (plan[1].StartUtc, plan[1].FinishUtc));
    }

    [Fact]
    public void Build_NinthSheetForEightDrawers_WaitsUntilTheFirstIsUnloaded()
    {
        var sheets = Enumerable.Range(1, 9).Select(i => Sheet(i, Stage(i, On(1, 0, 100, 5))) with { DueUtc = At(0, i, 5) }).ToList();
        var plan = Plan(new PlanRequest(At(6), [Slots(1, 8)], sheets, Always));
        Assert.All(Enumerable.Range(1, 8), i => Assert.Equal(At(6), plan[i].StartUtc));
        Assert.Equal(At(7, 45), plan[9].StartUtc);
    }

    [Fact]
    public void Build_OneFrameForBackAndFaceExposure_NeverHoldsTwoSheets()
    {
        var plan = Plan(new PlanRequest(
            At(6), [Single(1), Single(2)],
            [
                Sheet(1, Stage(11, On(1, 0, 10, 0)), Stage(12, On(2, 0, 8, 0)), Stage(13, On(1, 0, 10, 0))) with { DueUtc = At(7) },
                Sheet(2, Stage(21, On(1, 0, 10, 0)), Stage(22, On(2, 0, 8, 0)), Stage(23, On(1, 0, 10, 0))) with { DueUtc = At(8) },
            ],
            Always));
        Assert.Equal([At(6), At(6, 10), At(6, 20), At(6, 30)], new[] { 11, 21, 13, 23 }.Select(i => plan[i].StartUtc));
    }

    [Fact]
    public void Build_SameRecipeInLine_FollowsAfterTheSpacing()
    {
        var sheets = new[] { 1, 2, 3 }.Select(i => Sheet(i, Stage(i, On(1, 2, 30, 3, 8)))).ToList();
        var plan = Plan(new PlanRequest(At(6), [Line(1, 20)], sheets, Always));
        Assert.Equal([At(6), At(6, 8), At(6, 16)], new[] { 1, 2, 3 }.Select(i => plan[i].StartUtc));
        Assert.Equal(At(6, 35), plan[1].FinishUtc);
    }

    [Fact]
    public void Build_AnotherRecipeInLine_WaitsForTheEmptyLineAndTheChangeover()
    {
        var plan = Plan(new PlanRequest(
            At(6), [Line(1, 20)],
            [
                Sheet(1, Stage(1, On(1, 2, 30, 3, 8))) with { DueUtc = At(7) },
                Sheet(2, Stage(2, On(1, 2, 30, 3, 8))) with { RecipeId = 2 },
            ],
            Always));
        Assert.Equal(At(6, 52), plan[2].StartUtc);
    }

    [Fact]
    public void Build_ChangeoverThatDoesNotFitBeforeTheBreak_IsMadeAfterIt()
    {
        var plan = Plan(new PlanRequest(
            At(9, 10), [Line(1, 20)],
            [
                Sheet(1, Stage(1, On(1, 2, 30, 3, 8))) with { DueUtc = At(10) },
                Sheet(2, Stage(2, On(1, 2, 30, 3, 8))) with { RecipeId = 2 },
            ],
            EarlyShift));
        Assert.Equal(At(10, 50), plan[2].StartUtc);
    }

    [Fact]
    public void Build_TwoRecipesMixed_AreWashedInTwoRunsWhenNothingIsUrgent()
    {
        var sheets = Enumerable.Range(1, 6).Select(i => Sheet(i, Stage(i, On(1, 2, 20, 3, 8))) with { RecipeId = i % 2, DueUtc = At(i, 0, 9) }).ToList();
        var order = Plan(new PlanRequest(At(6), [Line(1, 20)], sheets, Always)).Values.OrderBy(p => p.StartUtc).Select(p => p.SheetId);
        Assert.Equal([1, 3, 5, 2, 4, 6], order);
    }

    [Fact]
    public void Build_RushSheetOfAnotherRecipe_DoesNotWaitForTheWholeQueue()
    {
        var sheets = Enumerable.Range(1, 12).Select(i => Sheet(i, Stage(i, On(1, 2, 20, 3, 8)))).ToList();
        sheets.Add(Sheet(13, Stage(13, On(1, 2, 20, 3, 8))) with { RecipeId = 2, ReadyUtc = At(6, 6), DueUtc = At(7, 20) });
        var plan = Plan(new PlanRequest(At(6), [Line(1, 20)], sheets, Always));
        Assert.True(plan[13].FinishUtc <= At(7, 20), $"The rush sheet comes at {plan[13].FinishUtc:u}.");
    }

    [Fact]
    public void Build_TwoSheetsAtOnce_TheMoreUrgentGoesFirst()
    {
        var plan = Plan(new PlanRequest(
            At(6), [Single(1)],
            [Sheet(1, Stage(1, On(1, 0, 30, 0))) with { DueUtc = At(12) }, Sheet(2, Stage(2, On(1, 0, 30, 0))) with { DueUtc = At(9) }],
            Always));
        Assert.Equal((At(6, 30), At(6)), (plan[1].StartUtc, plan[2].StartUtc));
    }

    [Theory]
    [InlineData(12, "before it is late")]
    [InlineData(-12, "when both are late")]
    public void Build_SameDueTime_TheHeavierGoesFirst(int hoursToDue, string when)
    {
        var due = At(6).AddHours(hoursToDue);
        var plan = Plan(new PlanRequest(
            At(6), [Single(1)],
            [Sheet(1, Stage(1, On(1, 0, 30, 0))) with { DueUtc = due }, Sheet(2, Stage(2, On(1, 0, 30, 0))) with { DueUtc = due, Weight = 2 }],
            Always));
        Assert.True(plan[2].StartUtc < plan[1].StartUtc, when);
    }

    [Theory]
    [InlineData(4, 2)]
    [InlineData(6, 1)]
    public void Build_UrgentSheetAMomentLater_IsWaitedForOnlyAMoment(int minutesLater, int first)
    {
        var plan = Plan(new PlanRequest(
            At(6), [Single(1)],
            [
                Sheet(1, Stage(1, On(1, 0, 30, 0))) with { DueUtc = At(12) },
                Sheet(2, Stage(2, On(1, 0, 30, 0))) with { DueUtc = At(7), ReadyUtc = At(6, minutesLater) },
            ],
            Always));
        Assert.Equal(first, plan.Values.MinBy(p => p.StartUtc)!.SheetId);
    }

    [Fact]
    public void Build_UrgentSheetTakesADrawer_LeavesTheDrawerFreeLongerToTheSheetThatIsThere()
    {
        var drying = Sheet(3, Stage(3, On(1, 0, 30, 0)) with { Running = new RunningStage(1, At(5, 33)) });
        var plan = Plan(new PlanRequest(
            At(6), [Slots(1, 2)],
            [
                drying,
                Sheet(1, Stage(1, On(1, 0, 30, 0))) with { DueUtc = At(12) },
                Sheet(2, Stage(2, On(1, 0, 30, 0))) with { DueUtc = At(7), ReadyUtc = At(6, 4) },
            ],
            Always));
        Assert.Equal((At(6), At(6, 4)), (plan[1].StartUtc, plan[2].StartUtc));
    }

    [Fact]
    public void Build_SlowMachineFreeAndFastOneSoonFree_TakesTheOneThatFinishesFirst()
    {
        var busy = Sheet(1, Stage(1, On(1, 0, 30, 0)) with { Running = new RunningStage(1, At(5, 40)) });
        var plan = Plan(new PlanRequest(At(6), [Single(1), Single(2)], [busy, Sheet(2, Stage(2, On(2, 0, 60, 0), On(1, 0, 20, 0)))], Always));
        Assert.Equal((1, At(6, 10)), (plan[2].EquipmentId, plan[2].StartUtc));
    }

    [Fact]
    public void Build_RestAfterDrying_IsKeptBeforePostFinish()
    {
        var plan = Plan(new PlanRequest(
            At(6), [Slots(1, 2), Single(2)], [Sheet(1, Stage(1, On(1, 0, 60, 0)) with { LeastWaitAfter = Min(45) }, Stage(2, On(2, 0, 10, 0)))], Always));
        Assert.Equal(At(7, 45), plan[2].StartUtc);
    }

    [Fact]
    public void Build_SheetReadySinceYesterday_StartsNow() =>
        Assert.Equal(At(6), Plan(new PlanRequest(At(6), [Single(1)], [Sheet(1, Stage(1, On(1, 1, 1, 1))) with { ReadyUtc = At(0, 0, -1) }], Always))[1].StartUtc);

    [Fact]
    public void Build_DueBy_IsTheOneOfTheBackwardPass()
    {
        var sheet = Sheet(1, Stage(1, On(1, 5, 10, 5)), Stage(2, On(1, 5, 10, 5))) with { DueUtc = At(12) };
        var plan = Plan(new PlanRequest(At(6), [Single(1)], [sheet], EarlyShift));
        Assert.Equal(DueBy.Of(sheet, EarlyShift), [plan[1].DueByUtc, plan[2].DueByUtc]);
        Assert.Equal(At(12) - At(6, 40), plan[2].Slack);
    }

    [Fact]
    public void Build_NothingToDo_IsAnEmptyPlan() =>
        Assert.Empty(Plan(new PlanRequest(At(6), [Single(1)], [Sheet(1)], Always)));
}
