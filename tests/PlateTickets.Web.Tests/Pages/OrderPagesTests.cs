using Bunit;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
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
    public async Task Search_IsOverAllTickets_NewestFirst_AndSaysWhatToDoWhenNothingFits()
    {
        var first = await Room.OrderAsync(["Cyan"]);
        var second = await Room.OrderAsync(["Cyan"]);
        await Services.GetRequiredService<OrderChanges>().CancelAsync(second.Order.Number, "a test", "Ada");
        Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().NavigateTo("/orders?search=cyan");
        var page = Render<OrderListPage>();
        Assert.Equal(
            new[] { second, first }.Select(t => TrackingNumber.ForPeople(t.Order.Number)),
            page.FindAll("a.number").Select(a => a.TextContent));
        Assert.Contains("Found among all tickets", page.Markup, StringComparison.Ordinal);
        Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().NavigateTo("/orders?from=2030-01-01");
        Assert.Contains("No ticket fits", Render<OrderListPage>().Markup, StringComparison.Ordinal);
        Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().NavigateTo("/orders?from=2030-01-01&to=2029-01-01");
        Assert.Contains("The first due day is after the last", Render<OrderListPage>().Find(".refusals").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TicketPage_DueChangedCancelledAndOrderedAgain()
    {
        var ticket = await Room.OrderAsync(["Cyan"]);
        await Room.Plans.ReplanAsync();
        var page = Render<TicketPage>(p => p.Add(t => t.Number, ticket.Order.Number));
        await PressAsync(page, "Change the due time");
        await page.InvokeAsync(() => page.Find(".ticket-act input").Change("2026-11-28T10:00"));
        page.WaitForAssertion(() => Assert.Contains("in time. No other ticket becomes late.", page.Find(".ticket-act").TextContent, StringComparison.Ordinal));
        await page.InvokeAsync(() => page.Find(".ticket-act .go").Click());
        page.WaitForAssertion(() => Assert.Contains("Due is Sat 28 Nov 2026, 10:00 now.", page.Find(".door-done").TextContent, StringComparison.Ordinal));

        await PressAsync(page, "Order again");
        await page.InvokeAsync(() => page.Find(".ticket-act .go").Click());
        var address = new Uri(Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().Uri).AbsolutePath;
        Assert.StartsWith("/tickets/T", address, StringComparison.Ordinal);
        Assert.DoesNotContain(ticket.Order.Number, address, StringComparison.Ordinal);

        await PressAsync(page, "Cancel the order");
        Assert.Contains("not started: the raw sheet is stock again", page.Find(".ticket-act").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.Find(".ticket-act .go").Click());
        Assert.Contains("Say why the order is cancelled", page.Find(".ticket-act .refusals").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.Find(".ticket-act input").Change("the customer stopped it"));
        await page.InvokeAsync(() => page.Find(".ticket-act .go").Click());
        page.WaitForAssertion(() => Assert.Contains("Cancelled: the customer stopped it", page.Markup, StringComparison.Ordinal));
        Assert.Equal(["Order again"], page.FindAll(".ticket-acts button").Select(b => b.TextContent));
    }

    [Fact]
    public async Task TicketPage_CopiesAreChanged_WithTheirEffectFirst()
    {
        var ticket = await Room.OrderAsync(["Cyan", "Black"]);
        var page = Render<TicketPage>(p => p.Add(t => t.Number, ticket.Order.Number));
        await PressAsync(page, "Change the copies");
        Assert.True(page.Find(".ticket-act .go").HasAttribute("disabled"));
        await page.InvokeAsync(() => page.Find(".ticket-act input").Change("2"));
        page.WaitForAssertion(() => Assert.Contains("The added plates would be done by", page.Find(".ticket-act").TextContent, StringComparison.Ordinal));
        Assert.Contains("2 plates are added, on 1 new sheet.", page.Find(".ticket-act").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.Find(".ticket-act .go").Click());
        page.WaitForAssertion(() => Assert.Contains("2 plates of each colour are wanted now, 1 before. Print the traveler of S", page.Find(".door-done").TextContent, StringComparison.Ordinal));
        Assert.Equal(4, page.FindAll(".plates tbody tr").Count);

        await PressAsync(page, "Change the copies");
        await page.InvokeAsync(() => page.Find(".ticket-act input").Change("1"));
        page.WaitForAssertion(() => Assert.Contains("2 plates are not wanted any more.", page.Find(".ticket-act").TextContent, StringComparison.Ordinal));
        await page.InvokeAsync(() => page.Find(".ticket-act input").Change("none"));
        page.WaitForAssertion(() => Assert.Contains("Type how many plates", page.Find(".ticket-act .refusals").TextContent, StringComparison.Ordinal));
    }

    [Fact]
    public async Task PlateThatIsNotWanted_IsWasteOnItsSheetsPage()
    {
        var ticket = await Room.OrderAsync(["Cyan"], copies: 2);
        var sheet = Assert.Single(ticket.Sheets).Number;
        await Services.GetRequiredService<OrderCopies>().SetAsync(ticket.Order.Number, 1, ticket.Order.Version, "Ada");
        Assert.Contains("Waste when the sheet is cut, made again or not wanted any more:", Render<PlateTickets.Web.Sheets.SheetPage>(p => p.Add(s => s.Number, sheet)).Markup, StringComparison.Ordinal);
    }

    [Fact]
    public async Task OrderList_SaysWhereEachSheetIs()
    {
        var ticket = await Room.OrderAsync(["Cyan"]);
        await Room.ScanAsync(ticket.Sheets[0].Number, "frame-1");
        Assert.Contains("in back exposure", Render<OrderListPage>().Find("tbody tr").TextContent, StringComparison.Ordinal);
        var large = await Room.OrderAsync(["Cyan", "Black"], acrossMm: 800, aroundMm: 1000, dueHours: 40);
        Room.Clock.Advance(TimeSpan.FromHours(1));
        await Room.ScanAsync(ticket.Sheets[0].Number, "frame-1");
        await Room.PassAsync(large.Sheets[0].Number, "frame-1");
        Assert.Contains("0 of 2 sheets done; 1 waits for imaging; 1 waits for back exposure", Render<OrderListPage>().FindAll("tbody tr")[1].TextContent, StringComparison.Ordinal);
    }

    private static Task PressAsync(IRenderedComponent<TicketPage> page, string button) =>
        page.InvokeAsync(() => page.FindAll(".ticket-acts button").Single(b => b.TextContent == button).Click());

    [Fact]
    public async Task History_TellsEntryScansAndPrints_AndShowsOneKindAlone()
    {
        var ticket = await Room.OrderAsync(["Cyan"]);
        var sheet = ticket.Sheets[0].Number;
        await Room.ScanAsync(sheet, "frame-1");
        await Room.ScanAsync(sheet, "line-washer");
        await Room.Sheets.CountPrintAsync(sheet, "Ada");
        var page = Render<TicketHistoryPage>(p => p.Add(x => x.Number, ticket.Order.Number));
        var said = page.FindAll(".happenings li").Select(l => l.TextContent).ToList();
        Assert.Contains(said, s => s.Contains("added order", StringComparison.Ordinal));
        Assert.Contains(said, s => s.Contains("Scan", StringComparison.Ordinal) && s.Contains("started on Frame 1", StringComparison.Ordinal));
        Assert.Single(page.FindAll(".happenings .refused"));
        Assert.Contains(said, s => s.Contains("Ada printed the traveler", StringComparison.Ordinal));
        Services.GetRequiredService<Microsoft.AspNetCore.Components.NavigationManager>().NavigateTo("/?show=scans");
        Assert.Equal(2, Render<TicketHistoryPage>(p => p.Add(x => x.Number, ticket.Order.Number)).FindAll(".happenings li").Count);
        Assert.Contains("No such ticket", Render<TicketHistoryPage>(p => p.Add(x => x.Number, "T00000000")).Markup, StringComparison.Ordinal);
    }

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
