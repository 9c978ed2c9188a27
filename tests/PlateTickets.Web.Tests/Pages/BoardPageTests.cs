using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Web.Board;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Tests.Pages;

public class BoardPageTests : PageTest
{
    [Fact]
    public async Task Sheet_MovesOnTheBoardByItself_WhenItIsScannedElsewhere()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var page = Render<BoardPage>();
        page.WaitForAssertion(() => Assert.NotNull(page.Find("[aria-label='Back exposure']").QuerySelector($"[data-sheet={sheet}]")));
        Assert.Equal("0", Cell(page, "BackExposure", ".goal strong"));
        await Room.PassAsync(sheet, "frame-1");
        page.WaitForAssertion(() => Assert.NotNull(page.Find("[aria-label='Imaging']").QuerySelector($"[data-sheet={sheet}]")));
        Assert.Null(page.Find("[aria-label='Back exposure']").QuerySelector($"[data-sheet={sheet}]"));
        page.WaitForAssertion(() => Assert.Equal("1", Cell(page, "BackExposure", ".goal strong")));
    }

    [Fact]
    public async Task LateTicket_IsNamedFirst_WithItsReason()
    {
        await Room.OrderAsync(["Cyan"], dueHours: 1);
        Room.Study.Simulate();
        var page = Render<BoardPage>();
        page.WaitForAssertion(() => Assert.Contains("It is not held up for long: the work itself ends after the due time", page.Find(".urgent-line.late").TextContent, StringComparison.Ordinal));
        Assert.Contains("Late by", page.Find(".urgent").TextContent, StringComparison.Ordinal);
        Assert.Equal("1", page.Find(".sums .late dd").TextContent);
    }

    [Fact]
    public void EmptyBoard_SaysSo()
    {
        var page = Render<BoardPage>();
        page.WaitForAssertion(() => Assert.Contains("No sheet is open", page.Find(".urgent").TextContent, StringComparison.Ordinal));
        Assert.Empty(page.FindAll(".board"));
    }

    [Fact]
    public async Task OnlyTheRowThatChanged_IsDrawnAgain()
    {
        await Room.OrderAsync(["Cyan"]);
        var page = Render<BoardPage>();
        page.WaitForAssertion(() => Assert.Equal(10, page.FindComponents<MachineLine>().Count));
        await UntilAsync(() => Room.Goals.FindAsync(ShiftBoard.ShiftNow(Room.Rooms.GetAsync().AsTask().Result, Room.Now)!).Result is not null);
        var before = page.FindComponents<MachineLine>().ToDictionary(m => m.Instance.Row.Slug, m => m.RenderCount);
        var stations = page.FindComponents<StationLine>().Sum(s => s.RenderCount);
        await Room.Duty.SetDownAsync(9, Room.Now, Room.Now.AddHours(1), "lamp", "Test");
        page.WaitForAssertion(() => Assert.Contains("until 09:00: lamp", page.Find("[data-machine=finisher]").TextContent, StringComparison.Ordinal));
        Assert.All(page.FindComponents<MachineLine>(), m => Assert.Equal(m.Instance.Row.Slug == "finisher" ? before["finisher"] + 1 : before[m.Instance.Row.Slug], m.RenderCount));
        Assert.Equal(stations, page.FindComponents<StationLine>().Sum(s => s.RenderCount));
    }

    [Fact]
    public async Task Rush_ShowsItsEffectFirst_AndIsDoneOnAClick()
    {
        var order = (await Room.OrderAsync(["Cyan"], dueHours: 1)).Order;
        var page = Render<BoardPage>();
        page.WaitForElement(".urgent-acts button");
        await page.InvokeAsync(() => page.FindAll(".urgent-acts button").First(b => b.TextContent == "Rush").Click());
        page.WaitForElement(".action-panel .compare");
        Assert.False((await Room.Orders.FindAsync(order.Number))!.Ticket.IsRush);
        await page.InvokeAsync(() => page.FindAll(".action-panel button").First(b => b.TextContent == "Rush it").Click());
        page.WaitForElement(".action-panel .applied");
        Assert.True((await Room.Orders.FindAsync(order.Number))!.Ticket.IsRush);
    }

    [Fact]
    public async Task MachineDown_AsksForTheTime_AndIsMarkedDown()
    {
        await Room.OrderAsync(["Cyan"]);
        var page = Render<BoardPage>();
        page.WaitForElement("[data-machine=finisher] button");
        await page.InvokeAsync(() => page.Find("[data-machine=finisher] button").Click());
        await page.InvokeAsync(() => Button(page, "Show the effect").Click());
        Assert.Contains("Type the time", page.Find(".refusals").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.Find(".action-panel .clock").Change("12:00"));
        await page.InvokeAsync(() => Button(page, "Show the effect").Click());
        page.WaitForElement(".action-panel .compare");
        // Another time than the one that was shown is not applied unseen.
        await page.InvokeAsync(() => page.Find(".action-panel .clock").Change("13:00"));
        Assert.DoesNotContain(page.FindAll(".action-panel button"), b => b.TextContent == "Mark it down");
        await page.InvokeAsync(() => Button(page, "Show the effect").Click());
        page.WaitForElement(".action-panel .compare");
        await page.InvokeAsync(() => Button(page, "Mark it down").Click());
        page.WaitForAssertion(() => Assert.Contains("down until 13:00", page.Find("[data-machine=finisher]").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task WhoMayNotChangeThePlan_SeesTheBoardWithoutButtons()
    {
        await Room.OrderAsync(["Cyan"], dueHours: 1);
        Services.GetRequiredService<Viewer>().SignedIn("Operator", Rights.Of(Role.Operator));
        var page = Render<BoardPage>();
        page.WaitForElement(".urgent-line");
        Assert.Empty(page.FindAll(".urgent-acts, .machine-line button"));
        var panel = Render<ActionPanel>(p => p.Add(a => a.Ask, new BoardAsk(BoardDeed.GoOn, 1, "x")).Add(a => a.Room, Room.Rooms.GetAsync().AsTask().Result));
        await panel.InvokeAsync(() => panel.FindAll("button").First(b => b.TextContent == "Let it go on").Click());
        Assert.Contains("may not do this", panel.Find(".refusals").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wall_HasNothingToClick_AndCountsWhatIsLeftOut()
    {
        for (var i = 0; i < 9; i++)
        {
            await Room.OrderAsync(["Cyan"], dueHours: 1);
        }

        Services.GetRequiredService<NavigationManager>().NavigateTo(Urls.BoardWith(wall: true));
        var page = Render<BoardPage>();
        page.WaitForElement(".wall-urgent .urgent-line");
        page.WaitForAssertion(() => Assert.Equal($"and {9 - page.FindAll(".wall-urgent .urgent-line").Count} more", page.Find(".wall-urgent .more").TextContent));
        Assert.Empty(page.FindAll(".wall-board button, .wall-board select"));
        Assert.Equal("08:00", page.Find(".wall-clock").TextContent);
    }

    [Fact]
    public async Task Filter_StandsInTheAddress()
    {
        await Room.OrderAsync(["Cyan"]);
        var page = Render<BoardPage>();
        page.WaitForElement(".board-tools select");
        await page.InvokeAsync(() => page.Find(".board-tools select").Change("Test Customer"));
        Assert.EndsWith("/board?customer=Test%20Customer", Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);
        Services.GetRequiredService<NavigationManager>().NavigateTo(Urls.BoardWith(customer: "Nobody"));
        page.WaitForAssertion(() => Assert.Contains("No sheet is open", page.Find(".urgent").TextContent, StringComparison.Ordinal));
        Assert.Equal("Nobody", page.Find(".board-tools select").QuerySelector("option[selected]")!.TextContent);
    }

    [Theory]
    [InlineData(Lateness.Late, -75, "Late by 1 h 15 min", "rect")]
    [InlineData(Lateness.AtRisk, 30, "At risk, 30 min spare", "path")]
    [InlineData(Lateness.OnTime, 300, "In time, 5 h spare", "circle")]
    public void Lateness_IsAWordAndAShape_NotOnlyAColour(Lateness lateness, int minutes, string words, string shape)
    {
        var mark = Render<LatenessMark>(p => p.Add(m => m.Of, lateness).Add(m => m.Slack, TimeSpan.FromMinutes(minutes)));
        Assert.Equal(words, mark.Find("span").TextContent.Trim());
        Assert.NotNull(mark.Find($"svg > {shape}"));
    }

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<BoardPage> page, string text) => page.FindAll(".action-panel button").First(b => b.TextContent == text);

    private static string Cell(IRenderedComponent<BoardPage> page, string station, string cell) => page.Find($"[data-station={station}] {cell}").TextContent;
}
