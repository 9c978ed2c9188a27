using AngleSharp.Dom;
using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Web.Planning;

namespace PlateTickets.Web.Tests.Pages;

public class WhatIfPageTests : PageTest
{
    [Fact]
    public async Task MachineDown_ShowsBeforeAndAfter_AndAppliesOnAClick()
    {
        var order = await Room.OrderAsync(["Cyan"], dueHours: 4);
        await UntilAsync(() => Room.Board.Now.Sheets.Count > 0);
        var page = Render<WhatIfPage>();
        foreach (var (frame, moves) in new[] { ("Frame 1", 1), ("Frame 2", 2) })
        {
            // On the page's own thread: nothing is drawn anew between finding a field and using it.
            await page.InvokeAsync(() => page.Find(".step-form select").Change(page.FindAll(".step-form select option").First(o => o.TextContent == frame).GetAttribute("value")));
            await page.InvokeAsync(() => page.Find("input.clock").Change("12:00"));
            await page.InvokeAsync(() => page.Find(".step-form button").Click());
            await AnsweredAsync(page, moves);
        }

        var late = page.FindAll(".compare tbody tr").First(r => r.TextContent.StartsWith("Late tickets", StringComparison.Ordinal)).QuerySelectorAll("td");
        Assert.Equal(["0", "1"], late.Select(d => d.TextContent));
        Assert.Equal(2, page.FindAll(".moves:not(.in-force) li").Count);
        Assert.Empty((await Room.Rooms.GetAsync()).Downtimes);

        await page.InvokeAsync(() => page.FindAll("button").First(b => b.TextContent.Contains("Apply to the room", StringComparison.Ordinal)).Click());
        page.WaitForElement(".applied");
        Assert.Equal(2, (await Room.Rooms.GetAsync()).Downtimes.Count);
        // The list follows the room's change by itself.
        page.WaitForAssertion(() => Assert.Contains(page.FindAll(".in-force li"), l => l.TextContent.Contains("Frame 1 is down until 12:00", StringComparison.Ordinal)));
        await Room.Plans.ReplanAsync();
        Assert.True((await Room.Orders.FindAsync(order.Order.Number))!.PlannedDoneUtc > order.Order.DueUtc);

        await page.InvokeAsync(() => page.FindAll(".in-force button").First().Click());
        await UntilAsync(() => page.FindAll(".in-force li").Count == 1);
    }

    [Theory]
    [InlineData("", "Until when?")]
    [InlineData("25:00", "is no time of day")]
    public void TimeThatIsNone_IsSaid_AndNothingIsAdded(string typed, string said)
    {
        var page = Render<WhatIfPage>();
        page.Find("input.clock").Change(typed);
        page.Find(".step-form button").Click();
        Assert.Contains(said, page.Find(".refusals").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll(".moves:not(.in-force) li"));
    }

    [Fact]
    public async Task HeldTicket_NeedsAReason_AndIsOnHoldAfterwards()
    {
        var order = await Room.OrderAsync(["Cyan"]);
        await UntilAsync(() => Room.Board.Now.Sheets.Count > 0);
        Services.GetRequiredService<NavigationManager>().NavigateTo(Urls.WhatIfTicket(order.Order.Number));
        var page = Render<WhatIfPage>();
        IElement Selects(int i) => page.FindAll(".step-form")[2].QuerySelectorAll("select")[i];
        Assert.Equal(order.Order.Id.ToString(System.Globalization.CultureInfo.InvariantCulture), Selects(0).GetAttribute("value"));
        await page.InvokeAsync(() => Selects(1).Change("hold"));
        await page.InvokeAsync(() => page.FindAll(".step-form")[2].QuerySelector("button")!.Click());
        Assert.Contains("Say why", page.Find(".refusals").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.FindAll(".step-form")[2].QuerySelector("input")!.Change("proof"));
        await page.InvokeAsync(() => page.FindAll(".step-form")[2].QuerySelector("button")!.Click());
        await AnsweredAsync(page, moves: 1);
        await page.InvokeAsync(() => page.FindAll("button").First(b => b.TextContent.Contains("Apply to the room", StringComparison.Ordinal)).Click());
        page.WaitForElement(".applied");
        Assert.Equal(Tickets.Sheets.SheetState.OnHold, (await Room.Orders.FindAsync(order.Order.Number))!.Sheets[0].State);
    }

    private static Task AnsweredAsync(IRenderedComponent<WhatIfPage> page, int moves) =>
        UntilAsync(() => page.FindAll(".moves:not(.in-force) li").Count == moves && page.FindAll(".compare").Count == 1);
}
