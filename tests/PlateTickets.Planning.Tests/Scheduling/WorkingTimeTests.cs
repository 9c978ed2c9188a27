using CsCheck;
using PlateTickets.Planning.Scheduling;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

public sealed class WorkingTimeTests
{
    private static readonly Gen<WorkingTime> Calendars = Gen.Select(Gen.Int[0, 300], Gen.Int[1, 40])
        .Array[1, 12]
        .Select(spans => new WorkingTime(spans.Select(s => new WorkingInterval(Monday.AddMinutes(s.Item1), Monday.AddMinutes(s.Item1 + s.Item2)))));

    [Fact]
    public void EarliestStart_WorkThatWouldRunIntoTheBreak_WaitsUntilAfterIt() =>
        Assert.Equal(At(10, 30), EarlyShift.EarliestStart(At(9, 50), Min(11)));

    [Fact]
    public void EarliestStart_WorkThatJustFits_StartsAtOnce() =>
        Assert.Equal(At(9, 50), EarlyShift.EarliestStart(At(9, 50), Min(10)));

    [Fact]
    public void EarliestStart_AfterTheShift_WaitsForTheNextMorning() =>
        Assert.Equal(At(6, 0, 1), EarlyShift.EarliestStart(At(14), Min(1)));

    [Fact]
    public void EarliestStart_NothingToDo_IsTheInstantItselfEvenAtNight() =>
        Assert.Equal(At(23), EarlyShift.EarliestStart(At(23), TimeSpan.Zero));

    [Fact]
    public void EarliestStart_LongerThanEveryInterval_IsNull() => Assert.Null(EarlyShift.EarliestStart(At(6), Min(241)));

    [Fact]
    public void LatestFinish_InTheNight_IsTheEndOfTheShift() => Assert.Equal(At(14), EarlyShift.LatestFinish(At(23), Min(30)));

    [Fact]
    public void LatestFinish_TooSoonAfterTheBreak_IsBeforeTheBreak() =>
        Assert.Equal(At(10), EarlyShift.LatestFinish(At(10, 45), Min(16)));

    [Fact]
    public void LatestFinish_NothingToDo_IsTheInstantItself() => Assert.Equal(At(23), EarlyShift.LatestFinish(At(23), TimeSpan.Zero));

    [Fact]
    public void LatestFinish_BeforeTheCalendar_IsNull() => Assert.Null(EarlyShift.LatestFinish(At(0, 0, -11), Min(1)));

    [Fact]
    public void IsWorking_StartIsPartOfTheShiftAndEndIsNot()
    {
        Assert.True(EarlyShift.IsWorking(At(6)));
        Assert.False(EarlyShift.IsWorking(At(10)));
        Assert.False(EarlyShift.IsWorking(At(5, 59)));
    }

    [Fact]
    public void Intervals_OverlappingTouchingAndEmpty_BecomeOne()
    {
        var working = new WorkingTime(
        [
            new WorkingInterval(At(9), At(12)), new WorkingInterval(At(6), At(9)), new WorkingInterval(At(8), At(10)), new WorkingInterval(At(20), At(20)),
        ]);
        Assert.Equal([new WorkingInterval(At(6), At(12))], working.Intervals);
    }

    [Fact]
    public void A_calendar_without_anybody_answers_null_and_false()
    {
        var nobody = new WorkingTime([]);
        Assert.Null(nobody.EarliestStart(At(6), Min(1)));
        Assert.Null(nobody.LatestFinish(At(6), Min(1)));
        Assert.False(nobody.IsWorking(At(6)));
        Assert.Equal(TimeSpan.Zero, nobody.Longest);
    }

    [Fact]
    public void A_time_that_is_not_UTC_is_refused_with_a_sentence()
    {
        var local = DateTime.SpecifyKind(At(6), DateTimeKind.Local);
        Assert.Contains("UTC", Assert.Throws<ArgumentException>(() => EarlyShift.IsWorking(local)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => EarlyShift.EarliestStart(local, Min(1)));
        Assert.Throws<ArgumentException>(() => WorkingTime.Always(local, local.AddDays(1)));
    }

    [Fact]
    public void A_negative_length_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => EarlyShift.EarliestStart(At(6), Min(-1)));

    [Fact]
    public void An_interval_that_ends_before_it_starts_is_refused() =>
        Assert.Contains("before it starts", Assert.Throws<ArgumentException>(() => WorkingTime.Always(At(7), At(6))).Message, StringComparison.Ordinal);

    [Fact]
    public void EarliestStart_OnRandomCalendars_IsWhatTryingEveryMinuteFinds() =>
        Gen.Select(Calendars, Gen.Int[-20, 360], Gen.Int[1, 60]).Sample((working, from, length) =>
        {
            var tried = Enumerable.Range(from, 400).Where(m => Fits(working, m, length)).Select(m => (DateTime?)Monday.AddMinutes(m)).FirstOrDefault();
            Assert.Equal(tried, working.EarliestStart(Monday.AddMinutes(from), Min(length)));
        });

    [Fact]
    public void LatestFinish_OnRandomCalendars_IsWhatTryingEveryMinuteFinds() =>
        Gen.Select(Calendars, Gen.Int[-20, 360], Gen.Int[1, 60]).Sample((working, by, length) =>
        {
            var tried = Enumerable.Range(-400, by + 401).Reverse().Where(m => Fits(working, m - length, length))
                .Select(m => (DateTime?)Monday.AddMinutes(m)).FirstOrDefault();
            Assert.Equal(tried, working.LatestFinish(Monday.AddMinutes(by), Min(length)));
        });

    private static bool Fits(WorkingTime working, int from, int length) =>
        Enumerable.Range(from, length).All(m => working.Intervals.Any(i => i.StartUtc <= Monday.AddMinutes(m) && Monday.AddMinutes(m) < i.EndUtc))
        && working.Intervals.Any(i => i.StartUtc <= Monday.AddMinutes(from) && Monday.AddMinutes(from + length) <= i.EndUtc);
}
