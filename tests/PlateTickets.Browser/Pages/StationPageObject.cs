using Microsoft.Playwright;

namespace PlateTickets.Browser.Pages;

/// <summary>A machine's page as its operator uses it.</summary>
internal sealed class StationPageObject(IPage page)
{
    public ILocator Told => page.GetByTestId("told");

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

    public Task ToldAsync(string words) => Assertions.Expect(Told).ToContainTextAsync(words);
}
