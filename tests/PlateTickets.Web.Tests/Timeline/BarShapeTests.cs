using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Web.Timeline;

namespace PlateTickets.Web.Tests.Timeline;

public class BarShapeTests
{
    private static readonly DateTime Eight = new(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);

    // 60 px an hour: a pixel is a minute.
    private static readonly TimelineScale Scale = new(Eight, Eight.AddDays(1), 60);

    [Fact]
    public void Parts_AreLoadRunWaitAndUnload_TheUnloadLast()
    {
        var shape = BarShape.Of(Stage(minutes: 100, load: 10, run: 40, unload: 20), 0, Scale);
        Assert.Equal("M10 9h40v22h-40z", shape.Run);
        Assert.Equal("M0 14h10v12h-10zM80 14h20v12h-20z", shape.Hands);
        Assert.Equal("M50 19h30v2h-30z", shape.Wait);
    }

    [Fact]
    public void StageThatWasQuickerThanItsRecipe_KeepsItsProportions()
    {
        var shape = BarShape.Of(Stage(minutes: 35, load: 10, run: 40, unload: 20), 0, Scale);
        Assert.Equal("M5 9h20v22h-20z", shape.Run);
        Assert.Equal("", shape.Wait);
    }

    [Fact]
    public void NarrowBar_IsOneBlock_StillWideEnoughToBeSeen()
    {
        var shape = BarShape.Of(Stage(minutes: 1, load: 0, run: 1, unload: 0), 1, Scale);
        Assert.Equal("M0 40h2v22h-2z", shape.Run);
        Assert.Equal("", shape.Hands);
    }

    [Fact]
    public void StageThatBeganBeforeTheDrawing_IsCutAtItsEdge()
    {
        var shape = BarShape.Of(Stage(minutes: 100, load: 10, run: 40, unload: 50) with { StartUtc = Eight.AddDays(-3) }, 0, Scale);
        Assert.Equal((0, 100), (shape.X, shape.Width));
    }

    [Theory]
    [InlineData(Lateness.Late, "M0 2h8v8h-8z")]
    [InlineData(Lateness.AtRisk, "M4 1l4.5 4.5l-4.5 4.5l-4.5 -4.5z")]
    [InlineData(Lateness.OnTime, "")]
    public void Mark_IsASquareForLate_ADiamondForAtRisk(Lateness lateness, string path) =>
        Assert.Equal(path, BarShape.Of(Stage(minutes: 100, load: 10, run: 40, unload: 20), 0, Scale).Mark(lateness));

    private static TimelineStage Stage(int minutes, int load, int run, int unload) => new(
        1, 1, Station.Imaging, StageState.Waiting, 1, Eight, Eight.AddMinutes(minutes), null, load * 60, run * 60, unload * 60, RunIsAttended: false);
}
