using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Web.Layouts;
using PlateTickets.Web.Stock;

namespace PlateTickets.Web.Tests.Pages;

public class LayoutPageTests : PageTest
{
    [Fact]
    public void NoPlateWaiting_SaysHowPlatesComeHere()
    {
        var page = Render<LayoutPage>();
        page.WaitForElement(".empty");
        Assert.Contains("No plate waits for a sheet.", page.Find(".empty").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Proposal_IsComparedWithWhatAPersonMakesOfIt_AndReleased()
    {
        var order = await Room.OrderWaitingAsync(["Cyan", "Black"], acrossMm: 400);
        var page = Render<LayoutPage>();
        page.WaitForElement(".figures");
        Assert.Equal(2, page.FindAll("svg [data-plate]").Count);
        await page.InvokeAsync(() => page.FindAll(".add-sheet button").First().Click());
        Assert.Contains("no plate on this sheet", page.Find(".flag.bad").TextContent, StringComparison.Ordinal);
        Assert.True(page.Find("button.primary").HasAttribute("disabled"));
        await page.InvokeAsync(() => page.FindAll("button").First(b => b.TextContent == "Undo").Click());
        await page.InvokeAsync(() => page.Find("button.primary").Click());
        page.WaitForElement(".applied");
        Assert.Single((await Room.Orders.FindAsync(order.Order.Number))!.Sheets);
    }

    [Fact]
    public async Task MaterialOfTheAddress_IsShown()
    {
        var order = await Room.OrderWaitingAsync(["Cyan"]);
        Services.GetRequiredService<NavigationManager>().NavigateTo(Urls.LayoutOf(order.Order.MaterialId));
        var page = Render<LayoutPage>();
        page.WaitForElement(".tabs.materials a.on");
        Assert.Contains("Aster 170", page.Find(".tabs.materials a.on").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Draft_KeepsSheetsWithALockedPlate_WhenTheRestIsProposedAgain()
    {
        await Room.OrderWaitingAsync(["Cyan", "Black", "White"], acrossMm: 500, aroundMm: 390);
        var draft = await DraftAsync();
        draft.Take(draft.Proposal(draft.Wishes), draft.Wishes);
        var plate = draft.Plates[0].PlateId;
        var at = draft.Now.SheetOf(plate);
        draft.Nudge(plate, 5_000, 0);
        draft.ToggleLock(plate);
        var kept = draft.Now.Sheets[at];
        draft.Take(draft.Proposal(draft.Wishes), draft.Wishes);
        Assert.Equal(kept, draft.Now.Sheets[draft.Now.SheetOf(plate)]);
        Assert.Empty(draft.Loose);
        draft.TakeOff(plate);
        Assert.True(draft.Now.SheetOf(plate) >= 0, "A locked plate stays.");
        for (var i = 0; i < 4; i++)
        {
            draft.Undo();
        }

        Assert.False(draft.CanUndo);
        Assert.Empty(draft.Now.Sheets);
        draft.Redo();
        Assert.Empty(draft.Loose);
    }

    [Fact]
    public async Task Draft_DroppedNearAnEdge_IsDrawnToTheRim_AndNeverLeavesTheSheet()
    {
        await Room.OrderWaitingAsync(["Cyan"], acrossMm: 300, aroundMm: 390);
        var draft = await DraftAsync();
        draft.Take(draft.Proposal(draft.Wishes), draft.Wishes);
        var (plate, rules) = (draft.Plates[0].PlateId, (await Room.Rooms.GetAsync()).NestRules);
        draft.Put(plate, 0, rules.SideMargin + 15_000, 400_000);
        var placed = draft.Now.Sheets[0].Plates[0];
        Assert.Equal(rules.SideMargin, placed.X);
        draft.Put(plate, 0, 9_000_000, -50_000_000);
        placed = draft.Now.Sheets[0].Plates[0];
        Assert.Equal((draft.Now.Sheets[0].Width - placed.Width, 0), (placed.X, placed.Y));
    }

    [Fact]
    public async Task StockPage_BooksADeliveryIn_AndSaysWhatIsWrong()
    {
        var page = Render<StockPage>();
        page.WaitForElement("form.receive");
        await page.InvokeAsync(() => page.Find("form.receive").Submit());
        page.WaitForElement(".refusals");
        Assert.Contains("Type the lot", page.Find(".refusals").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.FindAll("form.receive input").First().Change("N-77"));
        await page.InvokeAsync(() => page.Find("form.receive").Submit());
        page.WaitForElement(".applied");
        Assert.Contains(page.FindAll(".lots li"), l => l.TextContent.Contains("N-77", StringComparison.Ordinal) && l.TextContent.Contains("10 sheets", StringComparison.Ordinal));
    }

    private async Task<LayoutDraft> DraftAsync()
    {
        var material = (await Room.Layouts.MaterialsAsync()).Single().MaterialId;
        var waiting = await Room.Layouts.WaitingAsync(material);
        return new LayoutDraft(await Room.Rooms.GetAsync(), await Room.Layouts.ShelfAsync(material, waiting.Count), waiting);
    }
}
