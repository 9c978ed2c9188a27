using Bunit;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Web.Stations;

namespace PlateTickets.Web.Tests.Pages;

public class StationPageTests : PageTest
{
    [Fact]
    public async Task Scan_ShowsWhoseItIs_WhatToDo_AndStartsTheStage()
    {
        var sheet = (await Room.OrderAsync(["Cyan", "Black"])).Sheets[0].Number;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await page.InvokeAsync(() => page.Instance.Scanned(sheet.ToLowerInvariant(), Guid.NewGuid()));

        Assert.Contains("Back exposure of sheet", page.Find("[data-testid=told]").TextContent, StringComparison.Ordinal);
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
        Assert.Contains("Since back exposure this sheet has lain 3 d; its recipe allows 2 d", page.Find(".sheet-card").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FinishEarly_AsksFirst()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await page.InvokeAsync(() => page.Instance.Scanned(sheet, Guid.NewGuid()));
        await Button(page, "Finish early …").ClickAsync(new());
        Assert.Contains("Did it really come out already?", page.Markup, StringComparison.Ordinal);
        await Button(page, "Yes, it is out").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Contains("finished. Next is imaging", page.Find("[data-testid=told]").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task FinishButton_AppearsWhenTheRunIsOver()
    {
        var sheet = (await Room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var page = Render<StationPage>(p => p.Add(s => s.Slug, "frame-1"));
        await page.InvokeAsync(() => page.Instance.Scanned(sheet, Guid.NewGuid()));
        Room.Clock.Advance(TimeSpan.FromMinutes(10));
        page.WaitForAssertion(() => Button(page, "Finish"));
        await Button(page, "Finish").ClickAsync(new());
        page.WaitForAssertion(() => Assert.Contains("Next is imaging", page.Find("[data-testid=told]").TextContent, StringComparison.Ordinal));
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

    private static AngleSharp.Dom.IElement Button(IRenderedComponent<StationPage> page, string text) =>
        page.FindAll("button.act").Single(b => b.TextContent.Trim() == text);
}
