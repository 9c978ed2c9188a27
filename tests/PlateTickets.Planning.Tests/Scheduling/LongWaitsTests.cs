using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class LongWaitsTests
{
    [Theory]
    [InlineData(29, 0)]
    [InlineData(30, 0)]
    [InlineData(31, 1)]
    [InlineData(90, 60)]
    public void Of_WaitBeyondTheLongest_IsFoundWithItsLength(int minutes, int tooLong)
    {
        var waits = Waits(minutes, Stage(1, On(1, 0, 10, 0)) with { LongestWaitAfter = Min(30) });
        Assert.Equal(tooLong == 0 ? [] : [new LongWait(7, 2, Min(tooLong))], waits);
    }

    [Fact]
    public void Of_StageWithoutALongestWait_MayWaitForEver() => Assert.Empty(Waits(5000, Stage(1, On(1, 0, 10, 0))));

    // The two contradict each other: the rest that the sheet needs is the longest wait then.
    [Theory]
    [InlineData(45, 0)]
    [InlineData(50, 5)]
    public void Of_LongestWaitBelowTheLeast_CountsFromTheLeast(int minutes, int tooLong)
    {
        var waits = Waits(minutes, Stage(1, On(1, 0, 10, 0)) with { LeastWaitAfter = Min(45), LongestWaitAfter = Min(30) });
        Assert.Equal(Min(tooLong), waits.Count == 0 ? TimeSpan.Zero : waits.Single().TooLong);
    }

    private static IReadOnlyList<LongWait> Waits(int minutes, PlanStage first)
    {
        var request = new PlanRequest(At(6), [Single(1)], [Sheet(7, first, Stage(2, On(1, 0, 10, 0)))], Always);
        var begin = At(6, 10 + minutes);
        return LongWaits.Of(request, new Plan([new(7, 1, 1, At(6), At(6, 10), At(9)), new(7, 2, 1, begin, begin + Min(10), At(9))]));
    }
}
