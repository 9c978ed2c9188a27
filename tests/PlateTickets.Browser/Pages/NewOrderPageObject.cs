using Microsoft.Playwright;

namespace PlateTickets.Browser.Pages;

/// <summary>The CSR's order page.</summary>
internal sealed class NewOrderPageObject(IPage page)
{
    public async Task FillAsync(string customer, string title, string press)
    {
        await page.GetByLabel("Customer", new() { Exact = true }).FillAsync(customer);
        // First the field opens with every customer, then the list shrinks to what was typed: a press in between hits neither.
        var found = page.Locator(".mud-popover-open .mud-list-item");
        await Assertions.Expect(found).ToHaveCountAsync(1);
        await Assertions.Expect(found).ToHaveTextAsync(customer);
        await found.ClickAsync();
        // When it closes, the list of customers gives the focus back to its own field: what is typed before that would go there.
        await Assertions.Expect(page.Locator(".mud-popover-open")).ToHaveCountAsync(0);
        await Assertions.Expect(page.GetByLabel("Customer", new() { Exact = true })).ToHaveValueAsync(customer);
        await page.GetByLabel("Title of the job").FillAsync(title);
        await Assertions.Expect(page.GetByLabel("Title of the job")).ToHaveValueAsync(title);
        await page.Locator(".mud-select").Filter(new() { HasText = "Press" }).First.ClickAsync();
        await page.GetByText(press, new() { Exact = true }).Last.ClickAsync();
        await Assertions.Expect(page.GetByText("Distortion", new() { Exact = false }).First).ToBeVisibleAsync();
    }

    public Task DropAsync(params IEnumerable<string> files) => page.Locator("input[type=file]").SetInputFilesAsync(files);

    public ILocator Row(string file) => page.Locator("table.files tbody tr").Filter(new() { Has = page.Locator(".file-name", new() { HasText = file }) });

    public ILocator Save => page.GetByRole(AriaRole.Button, new() { Name = "Save and make the ticket" });
}
