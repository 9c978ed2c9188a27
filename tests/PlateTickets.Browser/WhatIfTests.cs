using Microsoft.Playwright;

namespace PlateTickets.Browser;

/// <summary>The manager asks what a broken frame and a missing operator do to the day.</summary>
public sealed class WhatIfTests(EveryPageTests.Played played) : IClassFixture<EveryPageTests.Played>
{
    [Fact]
    public async Task FrameDownAndSomebodyMissing_StandBeforeAndAfter_AndFitTheWindow()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + Web.Urls.WhatIf, 1280, 800);
        var down = page.Locator(".what-if .step-form").First;
        await down.Locator("input.clock").FillAsync("23:59");
        await down.Locator(".grow input").FillAsync("vacuum pump");
        await down.Locator("button").ClickAsync();
        await Assertions.Expect(page.Locator(".compare tbody tr")).ToHaveCountAsync(5);
        var people = page.Locator(".what-if .step-form").Nth(1);
        await people.Locator("input.clock").FillAsync("23:59");
        await people.Locator("button").ClickAsync();
        await Assertions.Expect(page.Locator(".moves:not(.in-force) li")).ToHaveCountAsync(2);
        await Assertions.Expect(page.Locator(".compare tbody tr")).ToHaveCountAsync(5);
        await Assertions.Expect(page.Locator("h2", new() { HasTextString = "Tickets that move" })).ToBeVisibleAsync();
        await Screenshots.TakeAsync(page, "what-if");
        await Axe.CleanAsync(page);
        foreach (var width in new[] { 1280, 1024 })
        {
            await page.SetViewportSizeAsync(width, 800);
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width);
        }

        await page.Context.CloseAsync();
    }
}
