using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Timeline;

namespace PlateTickets.Web.Tests.Timeline;

public class TimeGridTests
{
    private static readonly Room Berlin = new()
    {
        Site = new()
        {
            Name = "Room",
            TimeZoneId = "Europe/Berlin",
            Shifts = [new() { Name = "Early", Days = [DayOfWeek.Sunday], Start = new(6, 0), End = new(14, 0), Breaks = [new() { Start = new(10, 0), End = new(10, 30) }] }],
        },
        Zone = TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin"),
        Equipment = [],
        Facts = new Dictionary<int, Process.Recipes.EquipmentFacts>(),
        Materials = new Dictionary<int, Tickets.Recipes.Material>(),
        Revisions = new Dictionary<int, Tickets.Recipes.RecipeRevision>(),
        StockSizes = [],
        Presses = [],
    };

    [Theory]
    [InlineData(3, 29, 23)] // clocks go forward
    [InlineData(10, 25, 25)] // clocks go back
    [InlineData(6, 14, 24)]
    public void Day_IsAsLongAsItIs_AndItsTicksStandAtTheLocalHours(int month, int day, int hours)
    {
        var from = SiteClock.ToUtc(new DateTime(2026, month, day), Berlin.Zone);
        var scale = new TimelineScale(from, from.AddHours(hours), 60);
        var grid = TimeGrid.On(scale, Berlin);
        Assert.Equal(hours * 60, Assert.Single(grid.Days).Width);
        Assert.Equal(grid.Ticks.Select(t => t.X).Order().Distinct(), grid.Ticks.Select(t => t.X));
        Assert.All(grid.Ticks, t => Assert.Equal(SiteClock.Local(from.AddHours(t.X / 60), Berlin.Zone).ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture), t.Label));
        Assert.Equal("12:00", grid.Ticks[^12].Label);
    }

    [Fact]
    public void WorkingTime_LiesAtTheShifts_WithoutTheirBreaks()
    {
        var from = SiteClock.ToUtc(new DateTime(2026, 6, 14), Berlin.Zone);
        var grid = TimeGrid.On(new TimelineScale(from, from.AddHours(24), 60), Berlin);
        Assert.Equal([new TimeShade(360, 240), new TimeShade(630, 210)], grid.Working);
    }

    [Theory]
    [InlineData(346, "00:15")]
    [InlineData(60, "01:00")]
    [InlineData(6.2, "12:00")]
    public void Ticks_StandSoFarApart_ThatTheirLabelsAreFree(double pxPerHour, string second)
    {
        var from = SiteClock.ToUtc(new DateTime(2026, 6, 14), Berlin.Zone);
        Assert.Equal(second, TimeGrid.On(new TimelineScale(from, from.AddDays(2), pxPerHour), Berlin).Ticks[1].Label);
    }
}
