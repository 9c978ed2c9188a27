using System.Globalization;
using AngleSharp.Dom;
using Bunit;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Web.Timeline;

namespace PlateTickets.Web.Tests.Pages;

/// <summary>The timeline of a room that has worked for days.</summary>
public class PlayedTimelinePageTests : PageTest
{
    protected override bool Played => true;

    [Fact]
    public async Task EveryRunningPlannedAndJustFinishedStage_IsABar_InTheRowOfItsMachine()
    {
        await using var db = Room.CreateDbContext();
        var since = Room.Now.AddHours(-2);
        var stages = await db.Stages.AsNoTracking().Include(s => s.Sheet)
            .Where(s => s.Sheet!.State != SheetState.Cancelled && s.EquipmentId != null)
            .Where(s => s.State == StageState.Done ? s.FinishedUtc >= since : s.State == StageState.Running || s.Sheet!.State != SheetState.OnHold)
            .ToListAsync();
        Assert.Contains(stages, s => s.State == StageState.Running);
        var page = await ShownAsync();
        var bars = page.FindAll(".tl-bar[data-stage]");
        Assert.Equal(
            stages.Select(s => $"{s.Id} on {s.EquipmentId} {Word(s.State)}").Order(),
            bars.Select(b => $"{b.GetAttribute("data-stage")} on {b.Closest(".tl-row")!.GetAttribute("data-machine")} {b.ClassList[1]}").Order());
    }

    [Fact]
    public async Task BarsOfALane_NeverOverlap_AndTheDryerHasNoMoreLanesThanSlots()
    {
        var page = await ShownAsync();
        Click(page, "3 h");
        foreach (var lane in page.FindAll(".tl-bar[data-stage]").GroupBy(b => (Row: b.Closest(".tl-row")!.GetAttribute("data-machine"), Y: b.QuerySelector(".hit")!.GetAttribute("y"))))
        {
            var spans = lane.Select(b => (X: Number(b, "x"), Width: Number(b, "width"))).OrderBy(s => s.X).ToList();
            Assert.All(spans.Zip(spans.Skip(1)), pair => Assert.True(
                pair.First.X + pair.First.Width <= pair.Second.X + 0.2, $"Two bars overlap on machine {lane.Key.Row} at {pair.Second.X} px."));
        }

        var dryer = (await Room.Rooms.GetAsync()).EquipmentBySlug("dryer")!;
        var lanes = page.FindAll($".tl-row[data-machine='{dryer.Id}'] .tl-bar").Select(b => b.GetAttribute("data-lane")).Distinct().Count();
        Assert.InRange(lanes, 2, dryer.Slots);
    }

    [Fact]
    public async Task Find_MarksTheBarsOfTheSheetsThatMatch_AndSaysHowMany()
    {
        var page = await ShownAsync();
        var sheet = page.Find(".tl-bar.planned").GetAttribute("data-sheet")!;
        page.Find(".tl-find input").Input(TrackingNumber.ForPeople(sheet).ToLowerInvariant());
        Assert.Equal("1 sheet matches.", page.Find(".tl-found").TextContent);
        Assert.NotEmpty(page.FindAll(".tl-bar.found"));
        Assert.Equal(
            page.FindAll($".tl-bar[data-sheet={sheet}]").Select(b => b.GetAttribute("data-stage")).Order(),
            page.FindAll(".tl-bar.found").Select(b => b.GetAttribute("data-stage")).Order());
        page.Find(".tl-find input").Input("nobody of this name");
        Assert.Equal("No sheet on the timeline matches.", page.Find(".tl-found").TextContent);
        Assert.Empty(page.FindAll(".tl-bar.found"));
    }

    [Fact]
    public async Task Zoom_SpreadsTheSameBarsOverMorePixels()
    {
        var page = await ShownAsync();
        var before = page.FindAll(".tl-bar[data-stage]").Count;
        var narrow = Number(page.Find(".tl-bar.planned"), "width");
        Click(page, "3 h");
        Assert.Equal(before, page.FindAll(".tl-bar[data-stage]").Count);
        Assert.Equal(8.0 / 3, Number(page.Find(".tl-bar.planned"), "width") / narrow, 0.1);
        Assert.Equal("3 h", page.Find(".tl-zoom [aria-pressed=true]").TextContent);
    }

    /// <summary>One character of the label's typeface is 7.2 px wide at 12 px.</summary>
    [Fact]
    public async Task Labels_StayInsideTheirBars()
    {
        var page = await ShownAsync();
        Click(page, "3 h");
        var labels = page.FindAll(".tl-bar[data-stage] text");
        Assert.NotEmpty(labels);
        Assert.All(labels, l => Assert.True(l.TextContent.Length * 7.2 < Number(l.Closest(".tl-bar")!, "width"), l.TextContent));
    }

    private async Task<IRenderedComponent<TimelinePage>> ShownAsync()
    {
        await UntilAsync(() => Room.Board.Now.Sheets.Count > 0);
        var page = Render<TimelinePage>();
        page.WaitForElement(".tl-bar[data-stage]");
        return page;
    }

    private static void Click(IRenderedComponent<TimelinePage> page, string level) => page.FindAll(".tl-zoom button").Single(b => b.TextContent == level).Click();

    private static double Number(IElement bar, string name) => double.Parse(bar.QuerySelector(".hit")!.GetAttribute(name)!, CultureInfo.InvariantCulture);

    private static string Word(StageState state) => state switch { StageState.Done => "done", StageState.Running => "running", _ => "planned" };
}

/// <summary>The timeline of a room with the few sheets that the test puts there.</summary>
public class TimelinePageTests : PageTest
{
    [Fact]
    public void EmptyRoom_SaysSo()
    {
        var page = Render<TimelinePage>();
        page.WaitForAssertion(() => Assert.Contains("Nothing is running and nothing is planned", page.Find(".empty").TextContent, StringComparison.Ordinal));
        Assert.Empty(page.FindAll(".tl-scroll"));
    }

    [Fact]
    public async Task LateSheet_IsMarkedByShapeAndWord_NotOnlyByColour()
    {
        await Room.OrderAsync(["Cyan"], dueHours: 1);
        var page = Render<TimelinePage>();
        await ShowsAsync(page, ".tl-bar.late");
        Assert.All(page.FindAll(".tl-bar[data-stage]"), bar =>
        {
            Assert.NotNull(bar.QuerySelector("path.mark"));
            Assert.Contains("Late by", bar.GetAttribute("aria-label"), StringComparison.Ordinal);
            Assert.StartsWith("Late by", bar.GetAttribute("data-lateness"), StringComparison.Ordinal);
        });
        Assert.Contains(page.FindAll(".tl-bar text"), t => t.TextContent.EndsWith("late", StringComparison.Ordinal));
        Assert.Equal("1", page.Find(".sums .late dd").TextContent);
    }

    [Fact]
    public async Task FirstBar_ComesByItself_WhenAnOrderIsLaidOut()
    {
        var page = Render<TimelinePage>();
        page.WaitForElement(".empty");
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await ShowsAsync(page, $".tl-bar[data-sheet={sheet}]");
    }

    [Fact]
    public async Task Scan_DrawsTheRowsThatItTouches_AndNoOther()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var other = (await Room.OrderAsync(["Black"])).Sheets[0].Number;
        var page = Render<TimelinePage>();
        await ShowsAsync(page, $".tl-bar.planned[data-sheet={sheet}]");
        await ShowsAsync(page, $".tl-bar.planned[data-sheet={other}]");
        var machine = page.FindAll($".tl-bar[data-sheet={sheet}]").Single(b => b.GetAttribute("data-what")!.StartsWith("Back", StringComparison.Ordinal)).Closest(".tl-row")!.GetAttribute("data-machine");
        // A drawing of the two orders that is still to come must not be taken for one of the scan.
        await SettledAsync(page);
        var draws = Draws(page);
        await Room.ScanAsync(sheet, (await Room.Rooms.GetAsync()).EquipmentById(int.Parse(machine!, CultureInfo.InvariantCulture))!.Slug);
        await ShowsAsync(page, $".tl-bar.running[data-sheet={sheet}]");
        var after = Draws(page);
        Assert.Equal([int.Parse(machine!, CultureInfo.InvariantCulture)], after.Where(d => d.Value != draws[d.Key]).Select(d => d.Key));
    }

    [Fact]
    public async Task MachineThatIsDown_IsHatchedAndSaysUntilWhen()
    {
        await Room.OrderAsync(["Cyan"]);
        var machine = (await Room.Rooms.GetAsync()).EquipmentBySlug("thermal-unit")!;
        await new DutyDesk(Room, Room.Rooms, Room.Events, Room.Clock).SetDownAsync(machine.Id, Room.Now, Room.Now.AddHours(2), "heater", "test");
        var page = Render<TimelinePage>();
        await ShowsAsync(page, $".tl-row[data-machine='{machine.Id}'] .tl-down");
        Assert.Equal("down until 10:00: heater", page.Find(".tl-down").GetAttribute("aria-label"));
    }

    // The page draws at most once in a second of the room's clock, and all rows anew every 30 s. The clock of the test goes
    // no faster than the real one, so that a slow machine never reaches those 30 s.
    private static readonly TimeSpan Poll = TimeSpan.FromMilliseconds(10);

    private Task ShowsAsync(IRenderedComponent<TimelinePage> page, string selector) => UntilAsync(() =>
    {
        Room.Clock.Advance(Poll);
        return page.FindAll(selector).Count > 0;
    });

    private Task SettledAsync(IRenderedComponent<TimelinePage> page)
    {
        var (last, same) = (Draws(page), 0);
        return UntilAsync(() =>
        {
            Room.Clock.Advance(Poll);
            var now = Draws(page);
            same = now.Count == last.Count && now.All(d => last.GetValueOrDefault(d.Key) == d.Value) ? same + 1 : 0;
            last = now;
            return same >= 130;
        });
    }

    private static Dictionary<int, int> Draws(IRenderedComponent<TimelinePage> page) =>
        page.FindComponents<TimelineRow>().ToDictionary(r => r.Instance.Row.MachineId, r => r.Instance.Draws);
}
