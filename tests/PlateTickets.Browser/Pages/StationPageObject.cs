using Microsoft.Playwright;

namespace PlateTickets.Browser.Pages;

/// <summary>A machine's page as its operator uses it.</summary>
internal sealed class StationPageObject(IPage page)
{
    public ILocator Told => page.GetByTestId("told");

    public ILocator LinkBar => page.Locator(".link-bar");

    public ILocator ToSettle => page.GetByRole(AriaRole.Region, new() { Name = "To settle" }).GetByRole(AriaRole.Listitem);

    public ILocator Button(string name) => page.GetByRole(AriaRole.Button, new() { Name = name, Exact = true });

    public async Task<StationPageObject> ReadyAsync()
    {
        await Assertions.Expect(page.GetByLabel("Scan the traveler")).ToBeFocusedAsync();
        return this;
    }

    /// <summary>Types like a keyboard-wedge scanner: a few milliseconds a key, Enter at the end, wherever the focus is.</summary>
    public async Task ScanAsync(string code)
    {
        await page.Keyboard.TypeAsync(code, new() { Delay = 8 });
        await page.Keyboard.PressAsync("Enter");
    }

    /// <summary>Ticks what the recipe wants ticked of the sheet in hand. The answer of the scan is there before the sheet's card is.</summary>
    public async Task TickAsync()
    {
        var must = page.Locator(".checks label:has(em) input");
        await Assertions.Expect(must.First).ToBeVisibleAsync();
        for (var i = await must.CountAsync() - 1; i >= 0; i--)
        {
            await must.Nth(i).CheckAsync();
        }
    }

    public Task ToldAsync(string words) => Assertions.Expect(Told).ToContainTextAsync(words);
}
