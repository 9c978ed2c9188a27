using Microsoft.Playwright;

namespace PlateTickets.Browser;

/// <summary>What the timeline does in the browser without asking the server.</summary>
public sealed class TimelineTests(EveryPageTests.Played played) : IClassFixture<EveryPageTests.Played>
{
    [Fact]
    public async Task Keys_WalkFromBarToBar_AndEnterLeadsToTheTicket()
    {
        var page = await OpenAsync();
        await page.Locator(".tl-row .tl-bar:first-child").First.FocusAsync();
        var first = await FocusedAsync(page);
        await page.Keyboard.PressAsync("ArrowRight");
        var second = await FocusedAsync(page);
        Assert.NotEqual(first, second);
        await page.Keyboard.PressAsync("ArrowDown");
        Assert.NotEqual(second, await FocusedAsync(page));
        Assert.Equal(1, await page.Locator(".tl-bar[tabindex='0']").CountAsync());
        var sheet = await page.Locator(".tl-bar:focus").GetAttributeAsync("data-sheet");
        var shown = await page.Locator("[data-field=number]").TextContentAsync();
        Assert.Equal("Sheet" + sheet, shown!.Replace(" ", "", StringComparison.Ordinal));
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#tl-details a").First).ToBeFocusedAsync();
        await Axe.CleanAsync(page);
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("h1")).Not.ToHaveTextAsync("Timeline");
        Assert.Contains("/tickets/", page.Url, StringComparison.Ordinal);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task ZoomKeys_LeaveThePresentWhereItIs()
    {
        var page = await OpenAsync();
        var before = await NowXAsync(page);
        await page.Keyboard.PressAsync("+");
        await Assertions.Expect(page.Locator(".tl-zoom [aria-pressed=true]")).ToHaveTextAsync("3 h");
        Assert.Equal(before, await NowXAsync(page), 3.0);
        await page.Keyboard.PressAsync("-");
        await Assertions.Expect(page.Locator(".tl-zoom [aria-pressed=true]")).ToHaveTextAsync("8 h");
        Assert.Equal(before, await NowXAsync(page), 3.0);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Drag_Scrolls_AndHomeComesBackToThePresent()
    {
        var page = await OpenAsync();
        var before = await NowXAsync(page);
        await page.Mouse.MoveAsync(900, 400);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(700, 400, new() { Steps = 5 });
        await page.Mouse.UpAsync();
        Assert.Equal(before - 200, await NowXAsync(page), 3.0);
        await page.Keyboard.PressAsync("Home");
        Assert.Equal(before, await NowXAsync(page), 3.0);
        // The heads of the rows have not moved.
        Assert.All(await page.Locator(".tl-head").EvaluateAllAsync<double[]>("heads => heads.map(h => h.getBoundingClientRect().x)"), x => Assert.InRange(x, 0, 40));
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Find_ScrollsToTheFirstMatch_AndButtonsAreLargeEnough()
    {
        var page = await OpenAsync();
        var last = page.Locator(".tl-bar.planned[data-stage]").Last;
        var sheet = await last.GetAttributeAsync("data-sheet");
        await page.Locator(".tl-find input").FillAsync(sheet!);
        await Assertions.Expect(page.Locator(".tl-found")).ToHaveTextAsync("1 sheet matches.");
        await Assertions.Expect(page.Locator(".tl-bar.found").First).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("[data-field=number]")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".tl-find input")).ToBeFocusedAsync();
        var small = await page.EvaluateAsync<string[]>("""
            [...document.querySelectorAll('main button, main a, main input')]
              .filter(e => { const b = e.getBoundingClientRect(); return b.height < 44 || b.width < 44; })
              .map(e => e.outerHTML.slice(0, 80))
            """);
        Assert.Empty(small);
        await page.Context.CloseAsync();
    }

    private async Task<IPage> OpenAsync()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + Web.Urls.Timeline, 1280, 800);
        await Assertions.Expect(page.Locator(".tl-bar[tabindex='0']")).ToHaveCountAsync(1);
        return page;
    }

    private static Task<string> FocusedAsync(IPage page) => page.EvaluateAsync<string>("document.activeElement.dataset.stage");

    private static Task<double> NowXAsync(IPage page) => page.EvaluateAsync<double>("document.querySelector('.tl-now').getBoundingClientRect().x");
}
