using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>Shifts told apart over midnight and over the changes of the clock. Dates of the changes in 2026: 29 March and 25 October (Directive 2000/84/EC, last Sundays).</summary>
public class ShiftDaysTests
{
    private static readonly TimeZoneInfo Berlin = TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin");
    private static readonly IReadOnlySet<DateOnly> NoClosed = new HashSet<DateOnly>();
    private static readonly Shift Night = new("Night", Enum.GetValues<DayOfWeek>(), new(new(22, 0), new(6, 0)), []);
    private static readonly Shift Early = new("Early", Enum.GetValues<DayOfWeek>(), new(new(6, 0), new(14, 0)), [new(new(9, 0), new(9, 30))]);

    [Theory]
    [InlineData(2026, 3, 28, 7)]
    [InlineData(2026, 6, 1, 8)]
    [InlineData(2026, 10, 24, 9)]
    public void NightShift_LastsAsLongAsItsNight(int year, int month, int day, int hours)
    {
        var night = Of([Night], new DateTime(year, month, day, 22, 0, 0, DateTimeKind.Utc), hours: 1).Single();
        Assert.Equal(new DateOnly(year, month, day), night.Day);
        Assert.Equal(TimeSpan.FromHours(hours), night.EndUtc - night.StartUtc);
    }

    [Fact]
    public void OneShiftEveryDay_AroundTheClock_StaysApart()
    {
        // A span that ends where it starts is a whole day; touching days must not become one shift.
        var shifts = Of([new Shift("Day", Enum.GetValues<DayOfWeek>(), new(new(6, 0), new(6, 0)), [])], new DateTime(2026, 11, 25, 0, 0, 0, DateTimeKind.Utc), hours: 48);
        Assert.Equal(3, shifts.Count);
        Assert.All(shifts, s => Assert.Equal(TimeSpan.FromHours(24), s.EndUtc - s.StartUtc));
    }

    [Fact]
    public void Break_DoesNotPartAShift_AndTheNextBeginsWhereItEnds()
    {
        var shifts = Of([Early, Night], new DateTime(2026, 11, 25, 0, 0, 0, DateTimeKind.Utc), hours: 24);
        Assert.Equal(["Night", "Early", "Night"], shifts.Select(s => s.Name));
        Assert.Equal(shifts[0].EndUtc, shifts[1].StartUtc);
        Assert.Equal("Early", ShiftDays.At(shifts, shifts[1].StartUtc)!.Name);
        Assert.Equal("Early", ShiftDays.At(shifts, shifts[1].EndUtc.AddTicks(-1))!.Name);
        Assert.Null(ShiftDays.At(shifts, shifts[1].EndUtc));
    }

    [Fact]
    public void ClosedDay_HasNoShift_ButTheNightBeforeEndsOnIt()
    {
        var closed = new HashSet<DateOnly> { new(2026, 12, 25) };
        var shifts = ShiftDays.Between([Night], closed, Berlin, new DateTime(2026, 12, 25, 0, 0, 0, DateTimeKind.Utc), new DateTime(2026, 12, 26, 0, 0, 0, DateTimeKind.Utc));
        Assert.Equal([new DateOnly(2026, 12, 24)], shifts.Select(s => s.Day));
    }

    private static IReadOnlyList<ShiftDay> Of(IReadOnlyList<Shift> shifts, DateTime fromUtc, int hours) =>
        ShiftDays.Between(shifts, NoClosed, Berlin, fromUtc, fromUtc.AddHours(hours));
}
