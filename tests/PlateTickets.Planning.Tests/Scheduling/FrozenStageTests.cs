using PlateTickets.Planning.Scheduling;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class FrozenStageTests
{
    [Fact]
    public void Build_RunningStage_KeepsMachineAndStartAndFinishesWhenItsTimesAreOver()
    {
        var plan = Plan(new PlanRequest(At(6), [Single(1), Single(2)], [Running(1, 1, At(5, 40)), Sheet(2, Stage(2, On(1, 1, 5, 1)))], Always));
        Assert.Equal((1, At(5, 40), At(6, 17)), (plan[1].EquipmentId, plan[1].StartUtc, plan[1].FinishUtc));
        Assert.Equal(At(6, 17), plan[2].StartUtc);
    }

    [Fact]
    public void Build_RunEndsInTheBreak_IsUnloadedAfterIt() =>
        Assert.Equal(At(10, 35), Plan(new PlanRequest(At(9, 50), [Single(1)], [Running(1, 1, At(9, 30))], EarlyShift))[1].FinishUtc);

    [Fact]
    public void Build_OverdueStage_IsExpectedNowAndNotInThePast() =>
        Assert.Equal(At(9), Plan(new PlanRequest(At(9), [Single(1)], [Running(1, 1, At(5))], Always))[1].FinishUtc);

    [Fact]
    public void Build_OverdueStageAtNight_IsExpectedWhenTheNextShiftHasUnloadedIt() =>
        Assert.Equal(At(6, 5, 1), Plan(new PlanRequest(At(20), [Single(1)], [Running(1, 1, At(12))], EarlyShift))[1].FinishUtc);

    [Fact]
    public void Build_NextStageOfARunningSheet_StartsAfterIt()
    {
        var sheet = Running(1, 1, At(5, 40));
        sheet = sheet with { Stages = [sheet.Stages[0] with { LeastWaitAfter = Min(10) }, Stage(2, On(2, 1, 5, 1))] };
        Assert.Equal(At(6, 27), Plan(new PlanRequest(At(6), [Single(1), Single(2)], [sheet], Always))[2].StartUtc);
    }

    [Fact]
    public void Build_MoreSheetsRunningThanSlots_WaitsUntilEnoughAreOut()
    {
        var sheets = new[] { Running(1, 1, At(5, 35)), Running(2, 1, At(5, 45)), Running(3, 1, At(5, 55)), Sheet(4, Stage(4, On(1, 1, 5, 1))) };
        Assert.Equal(At(6, 22), Plan(new PlanRequest(At(6), [Slots(1, 2)], sheets, Always))[4].StartUtc);
    }

    [Fact]
    public void Build_SheetInTheLine_HoldsUpAnotherRecipeUntilTheLineIsChangedOver()
    {
        var sheets = new[] { Running(1, 1, At(5, 50)), Sheet(2, Stage(2, On(1, 2, 5, 1, 3))) with { RecipeId = 2 }, Sheet(3, Stage(3, On(1, 2, 5, 1, 3))) };
        var plan = Plan(new PlanRequest(At(6), [Line(1, 15)], sheets, Always));
        Assert.Equal(At(6), plan[3].StartUtc);
        Assert.Equal(At(6, 37), plan[2].StartUtc);
    }

    [Fact]
    public void Build_OnlyOperatorStillLoads_UnloadsAnotherMachineAfterwards()
    {
        var loading = Sheet(2, Stage(2, On(2, 20, 30, 5)) with { Running = new RunningStage(2, At(10, 12)) });
        var plan = Plan(new PlanRequest(At(10, 17), [Single(1), Single(2)], [Running(1, 1, At(9, 55)), loading], EarlyShift) { Operators = [EarlyShift] });
        Assert.Equal(At(10, 37), plan[1].FinishUtc);
    }

    // 2 min loading, 30 min run, 5 min unloading.
    private static PlanSheet Running(int id, int machine, DateTime since) =>
        Sheet(id, Stage(id, On(machine, 2, 30, 5)) with { Running = new RunningStage(machine, since) });
}
