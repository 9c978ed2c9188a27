using Bunit;
using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Web.Orders;

namespace PlateTickets.Web.Tests.Pages;

public class OrderPagesTests : PageTest
{
    [Fact]
    public async Task TicketPage_ShowsPlatesLayoutAndStagesWithTheirLine()
    {
        var ticket = await Room.OrderAsync(["Cyan", "Magenta"]);
        var page = Render<TicketPage>(p => p.Add(t => t.Number, ticket.Order.Number));
        Assert.Equal(2, page.FindAll(".plates tbody tr").Count);
        Assert.Equal(2, page.FindAll(".layout rect.plate").Count);
        var rows = page.FindAll(".stages tbody tr");
        Assert.Equal(PlateTickets.Process.Stations.InOrder.Select(s => s.Title()), rows.Select(r => r.QuerySelector("th")!.TextContent));
        Assert.All(rows, r => Assert.NotEmpty(r.QuerySelector(".explain-line")!.TextContent));
        Assert.All(rows, r => Assert.DoesNotContain(r.QuerySelectorAll(".when dd"), d => d.TextContent == "–"));
        Assert.Contains("Distortion 97.526 %", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TicketPage_FollowsItsSheets()
    {
        var ticket = await Room.OrderAsync(["Cyan"]);
        var page = Render<TicketPage>(p => p.Add(t => t.Number, ticket.Order.Number));
        await Room.ScanAsync(ticket.Sheets[0].Number, "frame-1");
        page.WaitForAssertion(() => Assert.Contains("running since 08:00", page.Markup, StringComparison.Ordinal));
    }

    [Fact]
    public void TicketPage_UnknownNumber_SaysWhereToLook() =>
        Assert.Contains("Look for the job by title or customer", Render<TicketPage>(p => p.Add(t => t.Number, "T12345678")).Markup, StringComparison.Ordinal);

    [Fact]
    public async Task OrderList_ShowsOpenOrdersByDueTime()
    {
        var late = await Room.OrderAsync(["Cyan"], dueHours: 40);
        var early = await Room.OrderAsync(["Black"], dueHours: 20);
        var page = Render<OrderListPage>();
        Assert.Equal(
            new[] { early, late }.Select(t => TrackingNumber.ForPeople(t.Order.Number)),
            page.FindAll("a.number").Select(a => a.TextContent));
        Assert.Contains("1 sheet, not started", page.Markup, StringComparison.Ordinal);
    }

    [Fact]
    public void OrderList_Empty_SaysHowToBegin() =>
        Assert.Contains("A new order starts with “New order”", Render<OrderListPage>().Markup, StringComparison.Ordinal);

    [Fact]
    public async Task NewOrder_SavedWithoutAnything_NamesWhatIsMissing_AndKeepsTheForm()
    {
        var page = Render<NewOrderPage>();
        await page.FindAll("button").Single(b => b.TextContent.Trim() == "Save, files follow").ClickAsync(new());
        var refusals = page.Find(".refusals").TextContent;
        Assert.Contains("Choose a customer", refusals, StringComparison.Ordinal);
        Assert.Contains("Give the job a title", refusals, StringComparison.Ordinal);
        Assert.Contains("Choose the press", refusals, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NewOrder_DroppedFileThatIsNoTiff_HasItsSentence_AndCanBeLeftOut()
    {
        var page = Render<NewOrderPage>();
        page.FindComponent<Microsoft.AspNetCore.Components.Forms.InputFile>().UploadFiles(InputFileContent.CreateFromText("not an image", "notes.tif"));
        page.WaitForAssertion(() => Assert.Contains("notes.tif is not a TIFF file", page.Find(".files .bad").TextContent, StringComparison.Ordinal));
        await page.FindAll(".files button").Single().ClickAsync(new());
        Assert.Empty(page.FindAll(".files"));
    }
}

public class EmptyRoomPagesTests : PageTest
{
    protected override PlateTickets.Tickets.Demo.RoomStartKind Start => PlateTickets.Tickets.Demo.RoomStartKind.Empty;

    [Fact]
    public void EveryPage_OfAnEmptyRoom_SaysWhatIsMissing()
    {
        Assert.Contains("has no press and no material yet", Render<NewOrderPage>().Markup, StringComparison.Ordinal);
        Assert.Contains("has no machines yet", Render<Web.Stations.StationsPage>().Markup, StringComparison.Ordinal);
        Assert.Contains("No sheet is open", Render<Web.Board.BoardPage>().Markup, StringComparison.Ordinal);
        Assert.Contains("has no exposure frame yet", Render<Web.Recipes.RecipesPage>().Markup, StringComparison.Ordinal);
    }
}
