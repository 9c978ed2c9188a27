using Microsoft.Playwright;

namespace PlateTickets.Browser;

/// <summary>The lead lays waiting plates out by mouse and by keyboard, releases the layout and takes it back.</summary>
public sealed class LayoutTests(EveryPageTests.Played played) : IClassFixture<EveryPageTests.Played>
{
    [Fact]
    public async Task Plates_AreDraggedTurnedAndTakenBack_AndTheLayoutIsReleasedAndUndone()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + Web.Urls.Layout, 1280, 800);
        var plates = page.Locator("svg [data-plate]");
        await Assertions.Expect(plates.First).ToBeVisibleAsync();
        var count = await plates.CountAsync();
        var wrong = page.Locator(".flag.bad");
        await Assertions.Expect(wrong).ToHaveCountAsync(0);

        // Dropped onto its neighbour, a plate overlaps it: the page says so and releases nothing.
        var (one, other) = ((await plates.Nth(0).BoundingBoxAsync())!, (await plates.Nth(1).BoundingBoxAsync())!);
        await page.Mouse.MoveAsync(one.X + 12, one.Y + 12);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(one.X + 12 + ((other.X - one.X) / 2), one.Y + 12 + ((other.Y - one.Y) / 2), new() { Steps = 8 });
        await page.Mouse.UpAsync();
        await Assertions.Expect(wrong.Filter(new() { HasTextString = "overlap" })).ToHaveCountAsync(1);
        await Assertions.Expect(Release(page)).ToBeDisabledAsync();
        await page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(wrong).ToHaveCountAsync(0);

        // A turned plate leaves its ticket's direction.
        await plates.Nth(0).FocusAsync();
        await page.Keyboard.PressAsync("t");
        await Assertions.Expect(wrong.Filter(new() { HasTextString = "partly along and partly across" })).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("Control+z");
        await Assertions.Expect(wrong).ToHaveCountAsync(0);

        // Taken off and dragged back from the list.
        await plates.Nth(0).FocusAsync();
        await page.Keyboard.PressAsync("Delete");
        await Assertions.Expect(plates).ToHaveCountAsync(count - 1);
        var chip = (await page.Locator("li.loose").BoundingBoxAsync())!;
        var sheet = (await page.Locator("svg[data-sheet]").First.BoundingBoxAsync())!;
        await page.Mouse.MoveAsync(chip.X + 40, chip.Y + 12);
        await page.Mouse.DownAsync();
        await page.Mouse.MoveAsync(sheet.X + (sheet.Width / 2), sheet.Y + (sheet.Height / 2), new() { Steps = 8 });
        await page.Mouse.UpAsync();
        await Assertions.Expect(plates).ToHaveCountAsync(count);
        await Screenshots.TakeAsync(page, "layout-at-work");
        await Axe.CleanAsync(page);

        // A locked plate stays where it is.
        await plates.Nth(0).FocusAsync();
        await page.Keyboard.PressAsync("l");
        await Assertions.Expect(page.Locator(".draft-plate.locked")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("Delete");
        await Assertions.Expect(plates).ToHaveCountAsync(count);

        await page.GetByRole(AriaRole.Button, new() { NameString = "Start anew" }).ClickAsync();
        await Assertions.Expect(page.Locator(".draft-plate.locked")).ToHaveCountAsync(0);
        await Assertions.Expect(wrong).ToHaveCountAsync(0);
        await Release(page).ClickAsync();
        await Assertions.Expect(page.Locator(".applied")).ToContainTextAsync("Released");
        await Assertions.Expect(page.GetByRole(AriaRole.Link, new() { NameString = "Print the travelers" })).ToBeVisibleAsync();
        await Assertions.Expect(plates).ToHaveCountAsync(0);
        await page.GetByRole(AriaRole.Button, new() { NameString = "Undo this release" }).First.ClickAsync();
        await Assertions.Expect(page.Locator(".applied")).ToContainTextAsync("undone");
        await Assertions.Expect(plates).ToHaveCountAsync(count);
        await page.Context.CloseAsync();
    }

    private static ILocator Release(IPage page) => page.Locator("button.primary");
}
