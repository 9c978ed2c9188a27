using Bunit;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Orders;
using PlateTickets.Web.Sheets;
using PlateTickets.Web.Stations;

namespace PlateTickets.Web.Tests.Pages;

public class StationPageTests : PageTest
{
    [Fact]
    public async Task Scan_ShowsWhoseItIs_WhatToDo_AndStartsTheStage()
    {
        var sheet = (await Room.OrderAsync(["Cyan", "Black"])).Sheets[0].Number;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        var reply = await ScanAsync(page, sheet.ToLowerInvariant());

        Assert.Contains("Back exposure of sheet", reply.Sentence, StringComparison.Ordinal);
        var card = page.Find(".sheet-card");
        Assert.Contains("Test Customer", card.TextContent, StringComparison.Ordinal);
        Assert.Contains("Cyan", card.TextContent, StringComparison.Ordinal);
        Assert.Contains("Exposure time", card.QuerySelector(".big-settings")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("mW/cm²", card.QuerySelector(".explain")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("W027", card.QuerySelector(".cautions")!.TextContent, StringComparison.Ordinal);
        Assert.Contains("local codes", card.QuerySelector(".cautions")!.TextContent, StringComparison.Ordinal);
        page.WaitForAssertion(() => Assert.Contains(TrackingNumber.ForPeople(sheet), page.Find("[aria-label='Running here']").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task PlateThatIsNotWanted_IsPointedOutAsWaste()
    {
        var ticket = await Room.OrderAsync(["Cyan"], copies: 2);
        await Services.GetRequiredService<OrderCopies>().SetAsync(ticket.Order.Number, 1, ticket.Order.Version, "Ada");
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await ScanAsync(page, ticket.Sheets[0].Number);
        Assert.Contains("Waste when the sheet is cut, made again or not wanted any more:", page.Find(".sheet-card").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SheetThatLayTooLong_IsPointedOut()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await Room.PassAsync(sheet, "frame-1");
        Room.Clock.Advance(TimeSpan.FromDays(3));
        await UntilAsync(() => Room.Board.Now.Sheets.Values.Any(b => b.Number == sheet && b.Stage?.Station == Process.Station.Imaging));
        var planned = Room.Board.Now.Sheets.Values.Single(b => b.Number == sheet).Stage!.EquipmentId;
        var slug = (await Room.Rooms.GetAsync()).EquipmentById(planned)!.Slug;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, slug));
        await page.FindAll(".sheet-row").First(r => r.TextContent.Contains(TrackingNumber.ForPeople(sheet), StringComparison.Ordinal)).ClickAsync(new());
        Assert.Contains("has lain 3 d; its recipe allows 2 d. Ask the lead", page.Find(".sheet-card").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FinishEarly_AsksFirst()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await ScanAsync(page, sheet);
        await ClickAsync(page, "Finish early …");
        Assert.Contains("Did it really come out already?", page.Markup, StringComparison.Ordinal);
        var yes = Button(page, "Yes, it is out");
        Assert.Equal(("Finish", "true"), (yes.GetAttribute("data-scan"), yes.GetAttribute("data-confirmed")));
    }

    [Fact]
    public async Task FinishButton_AppearsWhenTheRunIsOver()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await ScanAsync(page, sheet);
        Room.Clock.Advance(TimeSpan.FromMinutes(10));
        page.WaitForAssertion(() => Assert.Equal("Finish", Button(page, "Finish").GetAttribute("data-scan")));
    }

    [Fact]
    public async Task WaitingSheets_AreListedInPlannedOrder_WithDueBy()
    {
        for (var i = 0; i < 3; i++)
        {
            await Room.OrderAsync(["Cyan"], dueHours: 30 - i);
        }

        // The board follows in the background; the pages are drawn from it once it has all three with their machines.
        await UntilAsync(() => Room.Board.Now.Sheets.Values.Count(b => b.Stage?.EquipmentId is not null) == 3);
        var pages = new[] { "frame-1", "frame-2" }.Select(slug => Render<StationPage>(p => p.Add(s => s.Slug, slug))).ToList();
        Assert.Equal(3, pages.Sum(p => p.FindAll("[aria-label='Comes next'] li").Count));
        Assert.Contains("due-by", pages[0].Markup + pages[1].Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void UnknownMachine_SaysSo() =>
        Assert.Contains("This room has no machine “nothing”", Render<StationPage>(p => p.Add(s => s.Slug, "nothing")).Markup, StringComparison.Ordinal);

    [Fact]
    public async Task CheckList_ShowsWhatMustBeTicked()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await Room.PassAsync(sheet, "frame-1");
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "imager-a"));
        await Room.ScanAsync(sheet, "imager-a", ticked: CheckPoint.None);
        await page.InvokeAsync(() => page.Instance.Delivered(sheet, false));
        Assert.Equal(["CoverFilmOff", "ClampsClosed"], page.FindAll(".checks label:has(em) input").Select(i => i.GetAttribute("data-check")));
        Assert.Equal(5, page.FindAll(".checks input").Count);
    }

    [Fact]
    public async Task Hold_IsOneTouch_AndItsReasonIsSaidAfterwards()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await ScanAsync(page, sheet);
        await ClickAsync(page, "Hold");
        page.WaitForAssertion(() => Assert.Contains("On hold: stopped at Frame 1", page.Find(".sheet-card").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Button(page, "mask damaged"));
        await ClickAsync(page, "mask damaged");
        page.WaitForAssertion(() => Assert.Contains("On hold: mask damaged, seen at Frame 1", page.Find(".sheet-card").TextContent, StringComparison.Ordinal));
        page.WaitForAssertion(() => Assert.Contains("is on hold: mask damaged", LastTold(), StringComparison.Ordinal));
    }

    [Fact]
    public async Task Reading_OutOfLimits_AsksForADecision_ThatNeedsAReason()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await ScanAsync(page, sheet);
        await page.InvokeAsync(() => page.FindAll(".reading input")[1].Change("1.3"));
        await page.InvokeAsync(() => page.Find("[aria-label='Keep floor']").Click());
        page.WaitForAssertion(() => Assert.Contains("Floor 1.3 mm is out of its limits (1.14 to 1.24 mm).", page.Find(".decide").TextContent, StringComparison.Ordinal));
        await ClickAsync(page, "Accept it");
        page.WaitForAssertion(() => Assert.Contains("Say why it is accepted", LastTold(), StringComparison.Ordinal));
        await page.InvokeAsync(() => page.Find(".decide input").Change("coarse screen"));
        await ClickAsync(page, "Accept it");
        page.WaitForAssertion(() => Assert.Contains("Accepted by Tester: coarse screen", page.Find(".readings").TextContent, StringComparison.Ordinal));
        Assert.Empty(page.FindAll(".decide"));
    }

    [Fact]
    public async Task Remake_FromTheStation_TellsTheTicket()
    {
        var ticket = await Room.OrderAsync(["Cyan", "Black"]);
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await ScanAsync(page, ticket.Sheets[0].Number);
        await ClickAsync(page, "Something is wrong");
        await ClickAsync(page, "Make again");
        page.WaitForAssertion(() => Assert.Contains("Tick the plates that are made again", LastTold(), StringComparison.Ordinal));
        await page.InvokeAsync(() => page.FindAll(".wrong-panel .defects input")[1].Change(true));
        await ClickAsync(page, "Make again");
        page.WaitForAssertion(() => Assert.Contains("1 plate is made again, on sheet S", LastTold(), StringComparison.Ordinal));
        var told = Render<TicketPage>(p => p.Add(t => t.Number, ticket.Order.Number));
        Assert.Contains("The set waits: 1 plate is made again.", told.Find(".notice.remake").TextContent, StringComparison.Ordinal);
        Assert.Contains("scratch; caused at back exposure, found at back exposure", told.Find(".notice.remake").TextContent, StringComparison.Ordinal);
        Assert.Contains("1 plate is made again, the set waits", Render<OrderListPage>().Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SheetPage_ShowsWhereItIs_WhatItIsTakenFrom_AndHowItIsCut()
    {
        var sheet = (await Room.OrderAsync(["Cyan", "Black"])).Sheets[0];
        var page = Render<SheetPage>(p => p.Add(s => s.Number, sheet.Number.ToLowerInvariant()));
        Assert.Contains("Waits for back exposure", page.Find(".state").TextContent, StringComparison.Ordinal);
        Assert.Contains($"lot {sheet.Lot}.", page.Find(".facts").TextContent, StringComparison.Ordinal);
        Assert.Contains("from the drawing's top left corner", page.Markup, StringComparison.Ordinal);
        Assert.Equal(7, page.FindAll(".stage-list li").Count);
        Assert.Contains("There is no sheet with the number “S123”", Render<SheetPage>(p => p.Add(s => s.Number, "S123")).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ComesNext_SaysWhyInThisOrder()
    {
        await Room.OrderAsync(["Cyan", "Magenta", "Yellow", "Black", "White"], acrossMm: 560, aroundMm: 549);
        await UntilAsync(() => Room.Board.Now.Sheets.Values.Count(b => b.Stage?.EquipmentId is not null) > 1);
        var pages = new[] { "frame-1", "frame-2" }.Select(slug => Render<StationPage>(p => p.Add(s => s.Slug, slug))).ToList();
        var why = string.Concat(pages.SelectMany(p => p.FindAll(".why")).Select(w => w.TextContent));
        Assert.Contains("Earliest due-by here; its set waits for", why, StringComparison.Ordinal);
    }

    // What is found is clicked before anything else can be drawn.
    private static Task ClickAsync(IRenderedComponent<StationPage> page, string text) => page.InvokeAsync(() => Button(page, text).Click());

    private string LastTold() => (string)JSInterop.Invocations["plateRoom.tell"][^1].Arguments[1]!;

    /// <summary>What the browser does: the reading goes to the scan endpoint, then the page looks again.</summary>
    private async Task<ScanReply> ScanAsync(IRenderedComponent<StationPage> page, string code)
    {
        var reply = await Room.ScanAsync(code, page.Instance.Slug);
        await page.InvokeAsync(() => page.Instance.Delivered(reply.SheetNumber ?? "", reply.Accepted));
        return reply;
    }

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<StationPage> page, string text) =>
        page.FindAll("button.act").Single(b => b.TextContent.Trim() == text);
}
