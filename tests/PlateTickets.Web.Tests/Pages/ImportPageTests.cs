using Bunit;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Orders.Lists;
using PlateTickets.Web.Orders;

namespace PlateTickets.Web.Tests.Pages;

public class ImportPageTests : PageTest
{
    [Fact]
    public async Task List_IsShownAsItWouldBeEntered_AndEnteredOnce()
    {
        var csv = OrderCsv.Example(await Room.Rooms.GetAsync(), Room.Now);
        var page = Render<ImportPage>();
        Assert.Contains("No file is chosen yet", page.Markup, StringComparison.Ordinal);
        page.FindComponent<InputFile>().UploadFiles(InputFileContent.CreateFromText(csv, "orders.csv"));
        page.WaitForAssertion(() => Assert.Contains("2 orders, and nothing is wrong with them.", page.Markup, StringComparison.Ordinal));
        Assert.Equal(2, page.FindAll("tbody tr").Count);
        Assert.Contains("new customer", page.Markup, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.FindAll("button").Single(b => b.TextContent.Trim() == "Enter 2 orders").Click());
        page.WaitForAssertion(() => Assert.Contains("2 orders are entered", page.Markup, StringComparison.Ordinal));
        Assert.Equal(2, page.FindAll("a.number").Count);

        // The same file again: it is said, and must be meant.
        page.FindComponent<InputFile>().UploadFiles(InputFileContent.CreateFromText(csv, "orders.csv"));
        page.WaitForAssertion(() => Assert.Contains("Looks like order", page.Markup, StringComparison.Ordinal));
        Assert.True(page.FindAll("button").Single(b => b.TextContent.Trim() == "Enter 2 orders").HasAttribute("disabled"));
        await page.InvokeAsync(() => page.Find(".tick input").Change(true));
        Assert.False(page.FindAll("button").Single(b => b.TextContent.Trim() == "Enter 2 orders").HasAttribute("disabled"));
        await using var db = Room.CreateDbContext();
        Assert.Equal(2, await db.Orders.CountAsync());
    }

    [Fact]
    public async Task Mistakes_StandBesideTheirRow_AndTheWayOfReadingCanBeChanged()
    {
        var press = (await Room.Rooms.GetAsync()).Presses[0].Name;
        var page = Render<ImportPage>();
        page.FindComponent<InputFile>().UploadFiles(InputFileContent.CreateFromText($"customer;title;press;repeat mm;due\r\nFern;Tea;\"{press}\";571,5;27.11.2026 14:00\r\n", "orders.csv"));
        page.WaitForAssertion(() => Assert.Contains("due: “27.11.2026 14:00” is not a day and time", page.Find("tr.wrong").TextContent, StringComparison.Ordinal));
        Assert.DoesNotContain(page.FindAll("button"), b => b.TextContent.Contains("Enter", StringComparison.Ordinal));
        await page.InvokeAsync(() => page.FindAll("select")[2].Change("DayFirst"));
        page.WaitForAssertion(() => Assert.Contains("Fri 27 Nov 2026, 14:00", page.Markup, StringComparison.Ordinal));
        Assert.Empty(page.FindAll("tr.wrong"));
    }

    [Fact]
    public void NoList_IsRefusedInOneSentence()
    {
        var page = Render<ImportPage>();
        page.FindComponent<InputFile>().UploadFiles(InputFileContent.CreateFromText("hello", "notes.txt"));
        page.WaitForAssertion(() => Assert.Contains("notes.txt, line 1: The first line must name the columns", page.Find(".refusals").TextContent, StringComparison.Ordinal));
    }
}
