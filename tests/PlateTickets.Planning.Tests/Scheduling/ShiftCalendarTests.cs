using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>
/// Shifts over daylight-saving changes. Dates and hours of the changes are those of the IANA time zone database: Europe/Berlin
/// goes 02:00 to 03:00 on 2026-03-29 and 03:00 to 02:00 on 2026-10-25 (both at 01:00 UTC, rule "EU"); America/New_York goes 02:00 to
/// 03:00 on 2026-03-08 (07:00 UTC) and 02:00 to 01:00 on 2026-11-01 (06:00 UTC, rule "US").
/// </summary>
public sealed class ShiftCalendarTests
{
    private static readonly DayOfWeek[] EveryDay = Enum.GetValues<DayOfWeek>();
    private static readonly LocalSpan Night = new(new TimeOnly(22, 0), new TimeOnly(6, 0));

    [Theory]
    [InlineData("Europe/Berlin", "2026-03-28", "2026-03-28T21:00Z", "2026-03-29T04:00Z", 7)]
    [InlineData("Europe/Berlin", "2026-10-24", "2026-10-24T20:00Z", "2026-10-25T05:00Z", 9)]
    [InlineData("America/New_York", "2026-03-07", "2026-03-08T03:00Z", "2026-03-08T10:00Z", 7)]
    [InlineData("America/New_York", "2026-10-31", "2026-11-01T02:00Z", "2026-11-01T11:00Z", 9)]
    [InlineData("Europe/Berlin", "2026-06-10", "2026-06-10T20:00Z", "2026-06-11T04:00Z", 8)]
    [InlineData("America/New_York", "2026-01-14", "2026-01-15T03:00Z", "2026-01-15T11:00Z", 8)]
    public void A_night_shift_is_as_long_as_the_night_is(string zone, string day, string start, string end, int hours)
    {
        var interval = Assert.Single(OneDay(zone, day, new Shift("Night", EveryDay, Night, [])));
        Assert.Equal(new WorkingInterval(Utc(start), Utc(end)), interval);
        Assert.Equal(TimeSpan.FromHours(hours), interval.EndUtc - interval.StartUtc);
    }

    [Theory]
    [InlineData("Europe/Berlin", "2026-03-29", 2, 30, "2026-03-29T01:00Z")]
    [InlineData("America/New_York", "2026-03-08", 2, 30, "2026-03-08T07:00Z")]
    [InlineData("Europe/Berlin", "2026-10-25", 2, 30, "2026-10-25T00:30Z")]
    [InlineData("America/New_York", "2026-11-01", 1, 30, "2026-11-01T05:30Z")]
    public void A_shift_that_starts_in_the_change_starts_with_the_jump_or_with_the_first_of_two(string zone, string day, int hour, int minute, string start)
    {
        var shift = new Shift("Early", EveryDay, new LocalSpan(new TimeOnly(hour, minute), new TimeOnly(10, 0)), []);
        Assert.Equal(Utc(start), Assert.Single(OneDay(zone, day, shift)).StartUtc);
    }

    [Theory]
    [InlineData("Europe/Berlin", "2026-03-28", 2, 30, "2026-03-29T01:00Z")]
    [InlineData("America/New_York", "2026-03-07", 2, 30, "2026-03-08T07:00Z")]
    [InlineData("Europe/Berlin", "2026-10-24", 2, 30, "2026-10-25T01:30Z")]
    [InlineData("America/New_York", "2026-10-31", 1, 30, "2026-11-01T06:30Z")]
    public void A_shift_that_ends_in_the_change_ends_with_the_jump_or_with_the_second_of_two(string zone, string day, int hour, int minute, string end)
    {
        var shift = new Shift("Late", EveryDay, new LocalSpan(new TimeOnly(18, 0), new TimeOnly(hour, minute)), []);
        Assert.Equal(Utc(end), Assert.Single(OneDay(zone, day, shift)).EndUtc);
    }

    [Fact]
    public void A_break_that_the_clock_skips_does_not_happen() =>
        Assert.Equal(
            [new WorkingInterval(Utc("2026-03-28T21:00Z"), Utc("2026-03-29T04:00Z"))],
            OneDay("Europe/Berlin", "2026-03-28", NightWithBreak(2, 15, 2, 45)));

    [Theory]
    [InlineData(2, 15, 2, 45, "2026-10-25T01:15Z", "2026-10-25T01:45Z")]
    [InlineData(1, 45, 2, 15, "2026-10-24T23:45Z", "2026-10-25T00:15Z")]
    [InlineData(2, 45, 3, 15, "2026-10-25T01:45Z", "2026-10-25T02:15Z")]
    public void A_break_in_the_doubled_hour_is_no_longer_than_its_clock_times_say(int h1, int m1, int h2, int m2, string start, string end) =>
        Assert.Equal(
            [new WorkingInterval(Utc("2026-10-24T20:00Z"), Utc(start)), new WorkingInterval(Utc(end), Utc("2026-10-25T05:00Z"))],
            OneDay("Europe/Berlin", "2026-10-24", NightWithBreak(h1, m1, h2, m2)));

    [Fact]
    public void A_break_before_midnight_lies_on_the_evening_of_the_night_shift() =>
        Assert.Equal(
            [new WorkingInterval(Utc("2026-06-10T20:00Z"), Utc("2026-06-10T21:00Z")), new WorkingInterval(Utc("2026-06-10T21:30Z"), Utc("2026-06-11T04:00Z"))],
            OneDay("Europe/Berlin", "2026-06-10", NightWithBreak(23, 0, 23, 30)));

    [Fact]
    public void Shifts_that_overlap_become_one_and_cover_each_others_breaks()
    {
        var early = new Shift("Early", EveryDay, Hours(6, 14), [Hours(10, 11)]);
        var late = new Shift("Late", EveryDay, Hours(13, 21), [Hours(17, 18)]);
        var helper = new Shift("Helper", EveryDay, new LocalSpan(new TimeOnly(10, 0), new TimeOnly(10, 30)), []);
        Assert.Equal(
            [
                new WorkingInterval(Utc("2026-06-10T04:00Z"), Utc("2026-06-10T08:30Z")),
                new WorkingInterval(Utc("2026-06-10T09:00Z"), Utc("2026-06-10T15:00Z")),
                new WorkingInterval(Utc("2026-06-10T16:00Z"), Utc("2026-06-10T19:00Z")),
            ],
            OneDay("Europe/Berlin", "2026-06-10", early, late, helper));
    }

    [Fact]
    public void Overlapping_breaks_are_taken_out_once()
    {
        var shift = new Shift("Day", EveryDay, Hours(6, 14), [Hours(9, 11), Hours(10, 12), Hours(13, 15)]);
        Assert.Equal(
            [new WorkingInterval(Utc("2026-06-10T04:00Z"), Utc("2026-06-10T07:00Z")), new WorkingInterval(Utc("2026-06-10T10:00Z"), Utc("2026-06-10T11:00Z"))],
            OneDay("Europe/Berlin", "2026-06-10", shift));
    }

    [Fact]
    public void On_a_closed_day_no_shift_starts_but_the_night_before_is_worked_to_its_end()
    {
        var closed = new HashSet<DateOnly> { new(2026, 5, 1) };
        var working = WorkingTime.FromShifts(
            [new Shift("Night", EveryDay, Night, [])], closed, Zone("Europe/Berlin"), Utc("2026-04-30T12:00Z"), Utc("2026-05-02T12:00Z"));
        Assert.Equal([new WorkingInterval(Utc("2026-04-30T20:00Z"), Utc("2026-05-01T04:00Z"))], working.Intervals);
    }

    [Fact]
    public void A_shift_is_worked_on_its_days_of_the_week_only()
    {
        var shift = new Shift("Day", [DayOfWeek.Monday, DayOfWeek.Friday], Hours(6, 14), []);
        var working = WorkingTime.FromShifts(
            [shift], new HashSet<DateOnly>(), Zone("Europe/Berlin"), Utc("2026-06-08T00:00Z"), Utc("2026-06-15T00:00Z"));
        Assert.Equal([DayOfWeek.Monday, DayOfWeek.Friday], working.Intervals.Select(i => i.StartUtc.DayOfWeek));
    }

    [Fact]
    public void Shifts_under_way_at_the_calendars_ends_are_cut_there()
    {
        var working = WorkingTime.FromShifts(
            [new Shift("Night", EveryDay, Night, [])], new HashSet<DateOnly>(), Zone("Europe/Berlin"), Utc("2026-06-10T00:00Z"), Utc("2026-06-10T22:00Z"));
        Assert.Equal(
            [new WorkingInterval(Utc("2026-06-10T00:00Z"), Utc("2026-06-10T04:00Z")), new WorkingInterval(Utc("2026-06-10T20:00Z"), Utc("2026-06-10T22:00Z"))],
            working.Intervals);
    }

    [Fact]
    public void A_shift_from_six_to_six_lasts_all_day() =>
        Assert.Equal(
            TimeSpan.FromHours(24),
            Assert.Single(OneDay("Europe/Berlin", "2026-06-10", new Shift("All", EveryDay, Hours(6, 6), [])).Select(i => i.EndUtc - i.StartUtc)));

    [Fact]
    public void A_break_without_length_is_refused_with_the_shifts_name()
    {
        var shift = new Shift("Early", EveryDay, Hours(6, 14), [Hours(10, 10)]);
        var refused = Assert.Throws<ArgumentException>(() => OneDay("Europe/Berlin", "2026-06-10", shift));
        Assert.Contains("shift Early starts and ends at 10:00", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_calendar_that_ends_before_it_begins_is_refused() =>
        Assert.Throws<ArgumentException>(() => WorkingTime.FromShifts(
            [], new HashSet<DateOnly>(), Zone("Europe/Berlin"), Utc("2026-06-10T00:00Z"), Utc("2026-06-09T00:00Z")));

    // Only the shifts that start on one local day, whatever the zone.
    private static IReadOnlyList<WorkingInterval> OneDay(string zone, string day, params Shift[] shifts)
    {
        var date = DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture);
        var closed = Enumerable.Range(-5, 11).Where(d => d != 0).Select(d => date.AddDays(d)).ToHashSet();
        var noon = DateTime.SpecifyKind(date.ToDateTime(new TimeOnly(12, 0)), DateTimeKind.Utc);
        return WorkingTime.FromShifts(shifts, closed, Zone(zone), noon.AddDays(-2), noon.AddDays(2)).Intervals;
    }

    private static Shift NightWithBreak(int h1, int m1, int h2, int m2) =>
        new("Night", EveryDay, Night, [new LocalSpan(new TimeOnly(h1, m1), new TimeOnly(h2, m2))]);

    private static LocalSpan Hours(int from, int to) => new(new TimeOnly(from, 0), new TimeOnly(to, 0));

    private static TimeZoneInfo Zone(string id) => TimeZoneInfo.FindSystemTimeZoneById(id);

    private static DateTime Utc(string text) => DateTime.Parse(
        text, System.Globalization.CultureInfo.InvariantCulture, System.Globalization.DateTimeStyles.AdjustToUniversal);
}
