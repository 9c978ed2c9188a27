using System.Text.RegularExpressions;
using Microsoft.Playwright;
using PlateTickets.Browser.Pages;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Browser;

/// <summary>The CSR drops real files and sees what is in them before an order is saved, and on its ticket afterwards.</summary>
public sealed class SeparationFilesTests(Chromium chromium) : IClassFixture<Chromium>
{
    [Fact]
    public async Task Dropped_files_show_their_preview_and_what_is_odd_about_them()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var folder = Directory.CreateTempSubdirectory("separations-").FullName;
        try
        {
            var files = GhostscriptJob.Make(folder, "job", widthMm: 150, heightMm: 390.104);
            var cyan = files.Single(f => f.Contains("(Cyan)", StringComparison.Ordinal));
            var copy = Path.Combine(folder, "job(Leaf Green).tif");
            File.Copy(cyan, copy);
            var page = await chromium.OpenAsync(room.Url + "/orders/new");
            var order = new NewOrderPageObject(page);
            await order.FillAsync("Northmere Dairy", "Butter foil, previews", "Press 1, wide film");
            await order.DropAsync([.. files, copy]);

            var row = order.Row("(Cyan).tif");
            await Assertions.Expect(row).ToContainTextAsync(new Regex(@"Ink \d+\.\d\s%"));
            await Assertions.Expect(row.Locator(".picture img")).ToHaveJSPropertyAsync("complete", true);
            // 150 x 390 mm in 1,024 pixels at most: the longer side is between a half and the whole of them.
            Assert.InRange(await row.Locator(".picture img").EvaluateAsync<int>("i => i.naturalHeight"), 512, 1024);
            await Assertions.Expect(order.Row("(Leaf Green).tif")).ToContainTextAsync("is the same file as");
            await Screenshots.TakeAsync(page, "new-order-previews");
            await order.Row("(Leaf Green).tif").GetByRole(AriaRole.Button).ClickAsync();
            await order.Save.ClickAsync();
            await Assertions.Expect(page).ToHaveURLAsync(new Regex("/tickets/T"));

            var plates = page.Locator("table.plates tbody tr");
            await Assertions.Expect(plates).ToHaveCountAsync(5);
            await Assertions.Expect(plates.First).ToContainTextAsync("cm²");
            await plates.First.Locator(".picture img").ScrollIntoViewIfNeededAsync();
            await page.WaitForFunctionAsync("document.querySelector('table.plates .picture img').naturalHeight >= 512");
            await Screenshots.TakeAsync(page, "ticket-previews");

            // The same file for a new order: it may be a repeat.
            await page.GotoAsync(room.Url + "/orders/new");
            await Assertions.Expect(page.GetByLabel("Title of the job")).ToBeVisibleAsync();
            await order.DropAsync(cyan);
            await Assertions.Expect(page.Locator(".earlier")).ToContainTextAsync("Northmere Dairy, Butter foil, previews");
            await page.GetByRole(AriaRole.Button, new() { Name = "Fill in from it" }).ClickAsync();
            await Assertions.Expect(page.GetByLabel("Title of the job")).ToHaveValueAsync("Butter foil, previews");
            await Assertions.Expect(page.GetByLabel("Customer", new() { Exact = true })).ToHaveValueAsync("Northmere Dairy");
            Assert.Empty(chromium.ForeignRequests);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
