using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>A good plan, spoiled in one way at a time: the check must say so.</summary>
public sealed class PlanCheckerTests
{
    private static readonly PlanRequest Room = new(
        At(6), [Single(1), Line(2, 20), Slots(3, 2)],
        [
            Sheet(1, Stage(11, On(1, 2, 10, 2)) with { Running = new RunningStage(1, At(5, 55)) }, Stage(12, On(2, 2, 20, 3, 8))),
            Sheet(2, Stage(21, On(1, 2, 10, 2)), Stage(22, On(2, 2, 20, 3, 8)), Stage(23, On(3, 2, 60, 2)) with { LeastWaitAfter = Min(30) }, Stage(24, On(1, 2, 10, 2))),
            Sheet(3, Stage(31, On(1, 2, 10, 2)), Stage(32, On(2, 2, 20, 3, 8)), Stage(33, On(3, 2, 60, 2))) with { RecipeId = 2 },
            Sheet(4, Stage(43, On(3, 2, 200, 2))),
        ],
        EarlyShift);

    [Fact]
    public void Violations_GoodPlan_AreNone() => Assert.Empty(PlanChecker.Violations(Room, DispatchPlanner.Build(Room)));

    [Fact]
    public void Violations_StageLeftOut_IsFound() => Found("Stage 24 is not planned.", Spoil(24, _ => null));

    [Fact]
    public void Violations_StageTwice_IsFound() =>
        Found("Stage 24 is planned twice.", new Plan([.. Good, Good.First(s => s.StageId == 24)]));

    [Fact]
    public void Violations_StageThatNobodyAskedFor_IsFound() =>
        Found("nobody asked for it", Spoil(24, s => s with { StageId = 99 }));

    [Fact]
    public void Violations_MachineThatCannotDoIt_IsFound() => Found("which cannot do it", Spoil(24, s => s with { EquipmentId = 3 }));

    [Fact]
    public void Violations_StartBeforeTheStageBeforeIsOver_IsFound() => Found("Stage 22 of sheet 2 starts at", Shift(22, -1));

    [Fact]
    public void Violations_RestTooShort_IsFound() => Found("Stage 24 of sheet 2 starts at", Shift(24, -1));

    [Fact]
    public void Violations_StartBeforeNow_IsFound() => Found("before 2026-03-02 06:00:00Z, when the sheet can be there", Shift(43, -120));

    [Fact]
    public void Violations_FrozenStageMoved_IsFound() => Found("but the plan moves it", Shift(11, 1));

    [Fact]
    public void Violations_FrozenStageFinishedInThePast_IsFound() => Found("before now", Spoil(11, s => s with { FinishUtc = At(5, 59) }));

    [Fact]
    public void Violations_LoadingAtNight_IsFound() => Found("is loaded at 2026-03-02 15:00:00Z, when nobody is there", Spoil(24, s => s with { StartUtc = At(15), FinishUtc = At(6, 5, 1) }));

    [Fact]
    public void Violations_LoadingOverTheBreak_IsFound() => Found("when nobody is there", Spoil(24, s => s with { StartUtc = At(9, 59), FinishUtc = At(10, 40) }));

    [Fact]
    public void Violations_UnloadingAtNight_IsFound() => Found("is unloaded until", Spoil(24, s => s with { FinishUtc = At(18) }));

    [Fact]
    public void Violations_RunCutShort_IsFound() => Found("before its loading, run and unloading are over", Spoil(24, s => s with { FinishUtc = s.FinishUtc - Min(1) }));

    [Fact]
    public void Violations_TwoSheetsOnASingleMachine_AreFound() => Found("Machine 1 takes 1 at once, but is full when stage 31", Spoil(31, s => At21(s)));

    [Fact]
    public void Violations_ThreeSheetsInTwoSlots_AreFound()
    {
        var start = Good.First(s => s.StageId == 23).StartUtc;
        var plan = new Plan([.. Good.Select(s => s.StageId == 33 ? s with { StartUtc = start, FinishUtc = start + Min(64) } : s)]);
        Found("Machine 3 takes 2 at once", plan);
    }

    [Fact]
    public void Violations_LineEnteredBeforeTheSpacingIsOver_IsFound() => Found("before the spacing is over", Spoil(22, s => AfterEntry12(s, 7)));

    [Fact]
    public void Violations_LoadedBeforeTheLastSheetEntered_IsFound() => Found("before stage 12 has entered", Spoil(22, s => AfterEntry12(s, 1)));

    [Fact]
    public void Violations_AnotherRecipeWithoutChangeover_IsFound() => Found("the line was not empty and changed over", Shift(32, -1));

    [Fact]
    public void Violations_MachineUsedWhileItIsDown_IsFound()
    {
        var down = Room with { Downtime = [new Downtime(3, Good.First(s => s.StageId == 43).FinishUtc - Min(1), At(23))] };
        Found("but the machine is down from", new Plan(Good), down);
    }

    [Fact]
    public void Violations_RunningOnAMachineThatIsDown_IsAFactAndNoFault()
    {
        var down = Room with { Downtime = [new Downtime(1, At(5, 50), At(6, 9))] };
        Assert.DoesNotContain(PlanChecker.Violations(down, new Plan(Good)), v => v.Contains("Stage 11 ", StringComparison.Ordinal));
    }

    [Fact]
    public void Violations_TwoLoadsAndOneOperator_AreFound()
    {
        var one = Room with { Operators = [EarlyShift] };
        var start = Good.First(s => s.StageId == 21).StartUtc;
        Found("as number 2 at once, but 1 operators are there", Spoil(43, s => s with { StartUtc = start, FinishUtc = start + Min(204) }), one);
    }

    [Fact]
    public void Violations_UnloadingWhileTheOnlyOperatorLoads_IsFound()
    {
        var one = Room with { Operators = [EarlyShift] };
        var unload = Good.First(s => s.StageId == 21).FinishUtc - Min(1);
        Found("as number 2 at once, but 1 operators are there", Spoil(43, s => s with { StartUtc = unload, FinishUtc = unload + Min(204) }), one);
    }

    [Fact]
    public void Violations_RoomIsOpenButNoOperatorIsThere_IsFound()
    {
        var late = Room with { Working = Always, Operators = [EarlyShift, EarlyShift] };
        Found("is loaded at 2026-03-02 15:00:00Z, when nobody is there", Spoil(24, s => s with { StartUtc = At(15), FinishUtc = At(6, 5, 1) }), late);
    }

    [Theory]
    [InlineData(3600)]
    [InlineData(-3600)]
    public void Violations_CostThatIsNotThatOfTheStages_IsFound(double wrong)
    {
        var late = Room with { Sheets = [.. Room.Sheets.Select(s => s with { DueUtc = At(6) })] };
        var plan = DispatchPlanner.Build(late);
        Assert.Empty(PlanChecker.Violations(late, plan));
        Found("The plan says that it costs", plan with { Cost = plan.Cost with { Main = plan.Cost.Main + wrong } }, late);
    }

    [Fact]
    public void Violations_CostOfASetCountedForEachOfItsSheets_IsFound()
    {
        var set = Room with { Tickets = [new PlanTicket(1, At(6), 1, [2, 3, 4])] };
        var plan = DispatchPlanner.Build(set);
        Assert.Empty(PlanChecker.Violations(set, plan));
        Found("The plan says that it costs", plan with { Cost = plan.Cost with { Main = 3 * plan.Cost.Main } }, set);
    }

    [Fact]
    public void Violations_CostWithoutWhatLiesTooLong_IsFound()
    {
        var wait = Room with { Sheets = [.. Room.Sheets.Select(s => s.Id == 2 ? s with { Stages = [.. s.Stages.Select(t => t.Id == 23 ? t with { LongestWaitAfter = Min(30) } : t)] } : s)] };
        Found("The plan says that it costs 0", Shift(24, 60), wait);
    }

    private static IReadOnlyList<PlannedStage> Good => DispatchPlanner.Build(Room).Stages;

    private static PlannedStage At21(PlannedStage s)
    {
        var other = Good.First(o => o.StageId == 21);
        return s with { StartUtc = other.StartUtc + Min(1), FinishUtc = other.FinishUtc + Min(1) };
    }

    private static PlannedStage AfterEntry12(PlannedStage s, double minutes)
    {
        var entry = Good.First(o => o.StageId == 12).StartUtc + Min(2 + minutes);
        return s with { StartUtc = entry - Min(2), FinishUtc = entry + Min(23) };
    }

    private static Plan Shift(int stage, double minutes) =>
        Spoil(stage, s => s with { StartUtc = s.StartUtc + Min(minutes), FinishUtc = s.FinishUtc + Min(minutes) });

    private static Plan Spoil(int stage, Func<PlannedStage, PlannedStage?> how) =>
        new([.. Good.Select(s => s.StageId == stage ? how(s) : s).OfType<PlannedStage>()]);

    private static void Found(string sentence, Plan plan, PlanRequest? room = null) =>
        Assert.Contains(PlanChecker.Violations(room ?? Room, plan), v => v.Contains(sentence, StringComparison.Ordinal));
}
