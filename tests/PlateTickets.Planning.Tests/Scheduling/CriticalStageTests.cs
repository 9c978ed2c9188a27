using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Planning.Scheduling.Lateness;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class CriticalStageTests
{
    [Fact]
    public void Of_TicketInTime_IsNotNamed() => Assert.Empty(Of(Room([Single(1)], Sheet(1, Stage(1, On(1, 0, 60, 0)))), due: At(7)));

    [Fact]
    public void Of_WorkAloneTooLong_NamesTheLongestStage()
    {
        var critical = One(Room([Single(1), Single(2)], Sheet(1, Stage(1, On(1, 0, 30, 0)), Stage(2, On(2, 0, 90, 0)))));
        Assert.Equal(new CriticalStage(5, 1, 2, 2, TimeSpan.Zero, WaitCause.Work, 0, 0), critical);
    }

    [Fact]
    public void Of_SheetsAheadOnTheMachine_NamesTheMachineAndCountsThem()
    {
        var room = Room([Single(1), Single(2)], Sheet(1, Stage(11, On(2, 0, 10, 0)), Stage(12, On(1, 0, 30, 0))), Ahead(2), Ahead(3), Ahead(4));
        Assert.Equal(new CriticalStage(5, 1, 12, 1, Min(80), WaitCause.Machine, 3, 0), One(room));
    }

    [Fact]
    public void Of_DrawersFull_NamesTheDryer()
    {
        var room = Room([Slots(1, 2)], Sheet(1, Stage(11, On(1, 0, 30, 0))), Ahead(2), Ahead(3));
        Assert.Equal(new CriticalStage(5, 1, 11, 1, Min(30), WaitCause.Machine, 2, 0), One(room));
    }

    [Fact]
    public void Of_LineRunsAnotherRecipe_NamesTheChangeover()
    {
        PlanSheet[] others = [.. Enumerable.Range(2, 3).Select(i => Sheet(i, Stage(i, On(1, 2, 30, 2, 8))) with { RecipeId = 2, DueUtc = At(6, 30) })];
        var critical = One(Room([Line(1, 40)], [Sheet(1, Stage(11, On(1, 2, 30, 2, 8))), .. others]));
        Assert.Equal((11, 1, WaitCause.Changeover, 3, 3), (critical.StageId, critical.EquipmentId, critical.Cause, critical.Ahead, critical.OfOtherRecipes));
        // Loaded at 6:00, the third entered at 6:18 and was through at 6:48; then 40 minutes of changeover.
        Assert.Equal(Min(88), critical.Wait);
    }

    [Fact]
    public void Of_LineWithSheetsOfTheSameRecipe_NamesTheMachine()
    {
        PlanSheet[] others = [.. Enumerable.Range(2, 3).Select(i => Sheet(i, Stage(i, On(1, 2, 30, 2, 8))) with { DueUtc = At(6, 30) })];
        Assert.Equal(WaitCause.Machine, One(Room([Line(1, 40)], [Sheet(1, Stage(11, On(1, 2, 30, 2, 8))), .. others])).Cause);
    }

    [Fact]
    public void Of_MachineDown_NamesTheDowntime()
    {
        var room = Room([Single(1)], Sheet(1, Stage(11, On(1, 0, 30, 0)))) with { Downtime = [new Downtime(1, At(5), At(9))] };
        Assert.Equal(new CriticalStage(5, 1, 11, 1, Min(180), WaitCause.Downtime, 0, 0), One(room));
    }

    [Fact]
    public void Of_NobodyThereUntilTheMorning_NamesTheShift()
    {
        var room = Room([Single(1)], Sheet(1, Stage(11, On(1, 5, 30, 0)))) with { NowUtc = At(15), Working = EarlyShift };
        Assert.Equal(new CriticalStage(5, 1, 11, 1, TimeSpan.FromHours(15), WaitCause.Shift, 0, 0), One(room));
    }

    [Fact]
    public void Of_OnlyOperatorIsBusyElsewhere_NamesTheOperator()
    {
        var busy = Sheet(2, Stage(2, On(2, 60, 0, 0))) with { DueUtc = At(6, 30) };
        var room = Room([Single(1), Single(2)], busy, Sheet(1, Stage(11, On(1, 5, 30, 0)))) with { Operators = [Always] };
        Assert.Equal(new CriticalStage(5, 1, 11, 1, Min(60), WaitCause.Operator, 0, 0), One(room));
    }

    [Fact]
    public void Of_StagePutOffBecauseItsSheetMayNotLie_NamesTheNextStage()
    {
        var drying = Sheet(2, Stage(2, On(2, 0, 180, 0)) with { Running = new RunningStage(2, At(5, 30)) });
        var sheet = Sheet(1, Stage(11, On(1, 0, 10, 0)) with { LongestWaitAfter = Min(30) }, Stage(12, On(2, 0, 60, 0)));
        Assert.Equal(new CriticalStage(5, 1, 11, 1, Min(110), WaitCause.NextStage, 0, 0), One(Room([Single(1), Single(2)], sheet, drying)));
    }

    [Fact]
    public void Of_SetOfTwoSheets_LooksAtTheOneThatComesLast()
    {
        var room = Room([Single(1), Single(2)], Sheet(1, Stage(11, On(1, 0, 30, 0))), Sheet(2, Stage(21, On(2, 0, 90, 0))));
        var request = room with { Tickets = [new PlanTicket(5, At(6, 30), 1, [1, 2])] };
        Assert.Equal((2, 21), CriticalStage.Of(request, DispatchPlanner.Build(request)).Select(c => (c.SheetId, c.StageId)).Single());
    }

    private static PlanSheet Ahead(int id) => Sheet(id, Stage(id, On(1, 0, 30, 0))) with { DueUtc = At(6, 15) };

    private static PlanRequest Room(PlanEquipment[] equipment, params PlanSheet[] sheets) => new(At(6), equipment, sheets, Always);

    private static CriticalStage One(PlanRequest room) => Assert.Single(Of(room, due: At(6, 5)));

    private static IReadOnlyList<CriticalStage> Of(PlanRequest room, DateTime due)
    {
        var request = room with { Tickets = [new PlanTicket(5, due, 1, [1])] };
        var plan = DispatchPlanner.Build(request);
        Assert.Empty(PlanChecker.Violations(request, plan));
        return CriticalStage.Of(request, plan);
    }
}
