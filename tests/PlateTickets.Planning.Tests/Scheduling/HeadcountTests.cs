using CsCheck;
using PlateTickets.Planning.Scheduling;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class HeadcountTests
{
    [Fact]
    public void Operators_OverlappingShifts_AddUp()
    {
        var operators = Headcount.Operators([Change(6, 14, 2), Change(12, 20, 1)]);
        Assert.Equal([[Interval(6, 20)], [Interval(6, 14)], [Interval(12, 14)]], operators.Select(o => o.Intervals));
    }

    [Fact]
    public void Operators_ShiftsThatFollowEachOther_HandOverWithoutAGap()
    {
        var operators = Headcount.Operators([Change(6, 14, 2), Change(14, 22, 1)]);
        Assert.Equal([[Interval(6, 22)], [Interval(6, 14)]], operators.Select(o => o.Intervals));
    }

    [Fact]
    public void Operators_OneIsMissing_LeavesOneLessForThatTime()
    {
        var operators = Headcount.Operators([Change(6, 14, 2), Change(8, 10, -1)]);
        Assert.Equal([[Interval(6, 14)], [Interval(6, 8), Interval(10, 14)]], operators.Select(o => o.Intervals));
    }

    [Fact]
    public void Operators_Overtime_ReachesBeyondTheShift()
    {
        var operators = Headcount.Operators([Change(6, 14, 2), Change(14, 16, 1)]);
        Assert.Equal([[Interval(6, 16)], [Interval(6, 14)]], operators.Select(o => o.Intervals));
    }

    [Fact]
    public void Operators_MoreMissingThanThere_IsNobodyAndNotLess()
    {
        var operators = Headcount.Operators([Change(6, 14, 1), Change(8, 10, -3)]);
        Assert.Equal([[Interval(6, 8), Interval(10, 14)]], operators.Select(o => o.Intervals));
    }

    [Fact]
    public void Operators_NobodyAtAll_IsOneWhoNeverComes() => Assert.Empty(Assert.Single(Headcount.Operators([])).Intervals);

    [Fact]
    public void Operators_ChangeThatEndsBeforeItBegins_CountsForNothing() =>
        Assert.Empty(Assert.Single(Headcount.Operators([Change(14, 6, 2)])).Intervals);

    // Counted anew at every minute, straight from what was asked.
    [Fact]
    public void At_every_instant_as_many_operators_are_there_as_the_changes_add_up_to() =>
        Gen.Select(Gen.Int[0, 100], Gen.Int[0, 100], Gen.Int[-2, 3]).Array[0, 8].Sample(
            changes =>
            {
                var operators = Headcount.Operators(changes.Select(c => new HeadcountChange(At(0, c.Item1), At(0, c.Item2), c.Item3)));
                for (var minute = 0; minute <= 100; minute++)
                {
                    var people = changes.Where(c => c.Item1 <= minute && minute < c.Item2).Sum(c => c.Item3);
                    Assert.Equal(Math.Max(0, people), operators.Count(o => o.IsWorking(At(0, minute))));
                }
            },
            iter: 500);

    private static HeadcountChange Change(int from, int to, int people) => new(At(from), At(to), people);

    private static WorkingInterval Interval(int from, int to) => new(At(from), At(to));
}
