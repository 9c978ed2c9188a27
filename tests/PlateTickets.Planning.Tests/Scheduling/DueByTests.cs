using PlateTickets.Planning.Scheduling;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class DueByTests
{
    [Fact]
    public void Of_WorkedByHand_GoesBackOverBreakAndNight()
    {
        // Due Tuesday 06:20. Drying: out at 06:20, its 10 min of unloading begin 06:10, four hours' run reach back to 02:10 in the
        // night; so it must have been loaded by 14:00 on Monday, beginning 13:50. Half an hour of rest before: 13:20.
        // Washout: 20 min unloading from 13:00, run of 150 min from 10:30, so 15 min loading end at the break: 10:00, from 09:45.
        var sheet = Sheet(
            1,
            Stage(1, On(1, 5, 10, 5)),
            Stage(2, On(2, 15, 150, 20)) with { LeastWaitAfter = Min(30) },
            Stage(3, On(3, 10, 240, 10))) with
        { DueUtc = At(6, 20, 1) };
        Assert.Equal([At(9, 45), At(13, 20), At(6, 20, 1)], DueBy.Of(sheet, EarlyShift));
    }

    [Fact]
    public void Of_DueAtNight_IsTheLastTimeThatSomebodyCanUnload() =>
        Assert.Equal([At(14)], DueBy.Of(Sheet(1, Stage(1, On(1, 5, 10, 5))) with { DueUtc = At(23) }, EarlyShift));

    [Fact]
    public void Of_SeveralMachines_TheFastestCounts() =>
        Assert.Equal(
            [At(7, 40), At(8)],
            DueBy.Of(Sheet(1, Stage(1, On(1, 0, 5, 0)), Stage(2, On(1, 5, 50, 5), On(2, 5, 10, 5))) with { DueUtc = At(8) }, EarlyShift));

    [Fact]
    public void Of_RunningStage_CountsOnItsOwnMachineOnly()
    {
        // Machine 2 needs nobody to unload and could finish at 11:00 in the night; the sheet lies in machine 1.
        var running = Stage(1, On(1, 5, 10, 5), On(2, 5, 10, 0)) with { Running = new RunningStage(1, At(6)) };
        Assert.Equal([At(14)], DueBy.Of(Sheet(1, running) with { DueUtc = At(23) }, EarlyShift));
    }

    [Fact]
    public void Of_CalendarThatDoesNotReachBack_SubtractsPlainly()
    {
        var sheet = Sheet(1, Stage(1, On(1, 5, 10, 5)), Stage(2, On(1, 5, 10, 5))) with { DueUtc = At(0) };
        Assert.Equal([At(23, 40, -1), At(0)], DueBy.Of(sheet, new WorkingTime([new WorkingInterval(At(6), At(14))])));
    }

    [Fact]
    public void Of_DueAtTheBeginningOfTime_StaysThere() =>
        Assert.Equal(
            [DateTime.MinValue, DateTime.MinValue],
            DueBy.Of(Sheet(1, Stage(1, On(1, 5, 10, 5)), Stage(2, On(1, 5, 10, 5))) with { DueUtc = DateTime.MinValue }, EarlyShift));
}
