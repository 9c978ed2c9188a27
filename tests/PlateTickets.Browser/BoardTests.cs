using System.Text.Json;
using Microsoft.Playwright;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web;

namespace PlateTickets.Browser;

/// <summary>The manager's board and the handover, in real browsers.</summary>
public sealed class BoardTests(EveryPageTests.Played played) : IClassFixture<EveryPageTests.Played>
{
    // What would be cut off at the wall's edge: a part that holds more than it shows.
    private const string CutOff = """
        [...document.querySelectorAll('.wall-board, .wall-board section, .wall-left, .wall-right')]
          .filter(e => e.scrollHeight > e.clientHeight + 1 || e.scrollWidth > e.clientWidth + 1)
          .map(e => `${e.getAttribute('aria-label') ?? e.className}: ${e.scrollWidth} x ${e.scrollHeight} in ${e.clientWidth} x ${e.clientHeight}`)
        """;

    private const string SmallText = """
        [...document.querySelectorAll('.wall-board *')]
          .filter(e => [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim()) && e.getBoundingClientRect().width > 0)
          .filter(e => parseFloat(getComputedStyle(e).fontSize) < 28)
          .map(e => `${getComputedStyle(e).fontSize} ${e.textContent.trim().slice(0, 40)}`)
        """;

    [Fact]
    public async Task Wall_DoesNotScroll_AndIsReadableFromAfar_AlsoWhenMuchIsLate()
    {
        using var http = await played.Room.ClientAsync(Role.Manager);
        await EndangerAsync();
        var page = await played.Browser.OpenAsync(played.Room.Url + Urls.BoardWith(wall: true), 1920, 1080);
        await Assertions.Expect(page.Locator(".wall-urgent .urgent-line").First).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".wall-urgent .more")).ToContainTextAsync("more");
        await Assertions.Expect(page.Locator(".wall-notes .machine-line.down")).ToHaveCountAsync(1);
        await Screenshots.TakeAsync(page, "board-wall");
        int[] size = await page.EvaluateAsync<int[]>("[document.documentElement.scrollWidth, document.documentElement.scrollHeight]");
        Assert.Equal("1920 x 1080", $"{size[0]} x {size[1]}");
        Assert.Empty(await page.EvaluateAsync<string[]>(CutOff));
        Assert.Empty(await page.EvaluateAsync<string[]>(SmallText));
        await Axe.CleanAsync(page);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Scan_ChangesTheBoardOfAnotherBrowser_ByItself()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var page = await played.Browser.OpenAsync(room.Url + Urls.Board);
        using var http = await room.ClientAsync(Role.Operator);
        var sheet = JsonDocument.Parse(await http.GetStringAsync("/api/v1/board")).RootElement.GetProperty("sheets").EnumerateArray()
            .First(s => s.GetProperty("state").GetString() == "Running" && s.GetProperty("station").GetString() == "Drying").GetProperty("number").GetString()!;
        var finished = page.Locator("[data-station=Drying] .goal strong");
        await Assertions.Expect(page.Locator($"article[data-sheet={sheet}]")).ToBeVisibleAsync();
        var before = int.Parse(await finished.InnerTextAsync(), System.Globalization.CultureInfo.InvariantCulture);
        var body = JsonSerializer.Serialize(new { id = Guid.NewGuid(), code = sheet, equipment = "dryer", action = "Finish", by = "Test", confirmed = true });
        using var reply = await http.PostAsync("/api/v1/scans", new StringContent(body, System.Text.Encoding.UTF8, "application/json"));
        reply.EnsureSuccessStatusCode();
        await Assertions.Expect(finished).ToHaveTextAsync($"{before + 1}", new() { Timeout = 5000 });
        await Assertions.Expect(page.GetByRole(AriaRole.Region, new() { Name = "Drying", Exact = true }).Locator($"article[data-sheet={sheet}]")).ToHaveCountAsync(0);
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Panel_ShowsTheEffect_AndMarksTheMachineDown_AndUpAgain()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var page = await played.Browser.OpenAsync(room.Url + Urls.Board);
        await page.Locator("[data-machine=finisher] button").ClickAsync();
        await page.Locator(".action-panel .clock").FillAsync("12:00");
        await page.Locator(".action-panel .grow input").FillAsync("lamp");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show the effect" }).ClickAsync();
        await Assertions.Expect(page.Locator(".action-panel .compare tbody tr")).ToHaveCountAsync(5);
        await Screenshots.TakeAsync(page, "board-panel");
        await Axe.CleanAsync(page);
        await page.GetByRole(AriaRole.Button, new() { Name = "Mark it down" }).ClickAsync();
        await Assertions.Expect(page.Locator("[data-machine=finisher]")).ToContainTextAsync("until 12:00: lamp");
        await page.EvaluateAsync("document.activeElement.blur()");
        await page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(page.Locator(".action-panel")).ToHaveCountAsync(0);
        await page.Locator("[data-machine=finisher] button").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Mark it up" }).ClickAsync();
        await Assertions.Expect(page.Locator("[data-machine=finisher] .machine-state")).ToHaveTextAsync("✓");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Handover_IsClosedByOnePerson_AndConfirmedByAnother()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var early = await played.Browser.OpenAsync(room.Url + Urls.Handover, role: Role.Lead);
        var notes = early.Locator("textarea");
        await notes.FillAsync("Frame 2 leaks at the left hinge.");
        // The test's clock stands still, so nothing is saved yet: the text must come through a reload all the same.
        await early.ReloadAsync();
        await early.GetByRole(AriaRole.Button, new() { Name = "Put it into the notes" }).ClickAsync();
        await Assertions.Expect(early.Locator("[data-testid=saved]")).ToContainTextAsync("Saved by");
        await Assertions.Expect(notes).ToHaveValueAsync("Frame 2 leaks at the left hinge.");
        await early.GetByRole(AriaRole.Button, new() { Name = "Close the shift and hand over" }).ClickAsync();
        await early.GetByRole(AriaRole.Button, new() { Name = "Yes, hand it over" }).ClickAsync();
        await Assertions.Expect(early.Locator(".applied")).ToContainTextAsync("is handed over");

        var late = await played.Browser.OpenAsync(room.Url + Urls.Handover, role: Role.Operator);
        await late.GetByRole(AriaRole.Link, new() { Name = "Read and confirm it" }).ClickAsync();
        await Assertions.Expect(late.Locator(".notes-text").First).ToHaveTextAsync("Frame 2 leaks at the left hinge.");
        await late.Locator(".confirm-handover textarea").FillAsync("Service is called.");
        await Screenshots.TakeAsync(late, "handover-closed");
        await Axe.CleanAsync(late);
        await late.GetByRole(AriaRole.Button, new() { Name = "I have read it and take over" }).ClickAsync();
        await Assertions.Expect(late.Locator(".shift-line")).ToContainTextAsync("Confirmed by");
        await Assertions.Expect(late.Locator(".confirm-handover")).ToHaveCountAsync(0);

        using var http = await room.ClientAsync(Role.Operator);
        var folder = Directory.CreateTempSubdirectory("handover-").FullName;
        try
        {
            var pdf = Path.Combine(folder, "handover.pdf");
            await File.WriteAllBytesAsync(pdf, await http.GetByteArrayAsync(Urls.HandoverPdf(1)));
            var text = Tool.Run("poppler-utils", "pdftotext", "-layout", pdf, "-");
            Assert.Contains("Frame 2 leaks at the left hinge.", text, StringComparison.Ordinal);
            Assert.Contains("Service is called.", text, StringComparison.Ordinal);
            Assert.Contains("Finished in this shift", text, StringComparison.Ordinal);
            Tool.Run("poppler-utils", "pdftoppm", "-r", "100", "-png", "-f", "1", "-l", "1", pdf, pdf);
            Screenshots.Keep(Directory.GetFiles(folder, "*.png").Single(), "handover-paper");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        await early.Context.CloseAsync();
        await late.Context.CloseAsync();
    }

    /// <summary>Makes much of the room late: every frame and the finisher are down for hours.</summary>
    private async Task EndangerAsync()
    {
        var services = played.Room.Services;
        var duty = (Tickets.Stations.Duty.DutyDesk)services.GetService(typeof(Tickets.Stations.Duty.DutyDesk))!;
        var now = played.Room.Clock.GetUtcNow().UtcDateTime;
        await duty.SetDownAsync(9, now, now.AddHours(30), "a long reason, such as a lamp that must be ordered from the maker", "Test");
    }
}
