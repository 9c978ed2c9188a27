using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using PlateTickets.Browser.Pages;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Browser;

/// <summary>Work at a machine with a scanner and a few touches: countdown and its end, keyboard alone, what is wrong, contrast.</summary>
public sealed class StationWorkTests(Chromium chromium) : IClassFixture<Chromium>
{
    [Fact]
    public async Task Countdown_SurvivesAReload_AndItsEndIsSeenAndHeard()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var (page, station) = await OpenAsync(room, "/stations/frame-1");
        var sheet = await WaitingAsync(room);
        await station.ScanAsync(sheet);
        await station.ToldAsync("started on Frame 1");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".countdown.huge")).ToHaveTextAsync(new System.Text.RegularExpressions.Regex("^[0-9]+:[0-9]{2}$"));
        await station.ReadyAsync();
        await page.EvaluateAsync("window.tones = 0; addEventListener('plate-room-tone', () => window.tones++);");
        // A browser gives sound only after the page was touched; a key counts.
        await page.Keyboard.PressAsync("Escape");
        room.Clock.Advance(TimeSpan.FromMinutes(10));
        await Assertions.Expect(page).ToHaveTitleAsync(new System.Text.RegularExpressions.Regex("Time is over"));
        await Assertions.Expect(page.Locator(".station.time-over .countdown.huge.over")).ToBeVisibleAsync();
        await page.WaitForFunctionAsync("window.tones >= 3");
        await Screenshots.TakeAsync(page, "station-over");
        await station.ScanAsync(sheet);
        await station.ToldAsync("finished. Next is imaging");
        await Assertions.Expect(page.Locator(".station")).Not.ToHaveClassAsync(new System.Text.RegularExpressions.Regex("time-over"));
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task BadgeAtAStation_ChangesThePersonThere()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var desk = room.Services.GetRequiredService<AccountDesk>();
        var ines = await desk.CreateAsync("Ines Harbour", Role.Operator, "Test");
        var badge = await desk.GiveBadgeAsync(ines.AccountId, "Test");
        var (page, station) = await OpenAsync(room, "/stations/frame-1");
        await station.ScanAsync(badge.Number);
        await Assertions.Expect(page.Locator(".refusals")).ToContainTextAsync("this is no registered tablet");

        var secret = await room.Services.GetRequiredService<Tablets>().RegisterAsync("Frame 1 tablet", "Test");
        await page.Context.AddCookiesAsync([new Cookie { Name = SignInDesk.TabletCookie, Value = secret, Url = room.Url }]);
        await page.GotoAsync(room.Url + "/stations/frame-1?kiosk=true");
        await station.ReadyAsync();
        await station.ScanAsync(badge.Number);
        var pin = page.GetByLabel("PIN");
        await Assertions.Expect(pin).ToBeFocusedAsync();
        await Screenshots.TakeAsync(page, "station-badge");
        await page.Keyboard.TypeAsync(badge.Pin);
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page).ToHaveURLAsync(room.Url + "/stations/frame-1?kiosk=true");
        await Assertions.Expect(page.Locator(".station .who")).ToHaveTextAsync("Ines Harbour");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task ScanIntoAnotherField_IsTakenOutOfItAndCounts()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var (page, station) = await OpenAsync(room, "/stations/frame-1");
        var sheet = await WaitingAsync(room);
        await station.ScanAsync(sheet);
        await station.ToldAsync("started on Frame 1");
        var floor = page.GetByLabel("Floor, mm");
        await floor.FillAsync("1.2");
        // The same code within two seconds is one reading.
        await page.WaitForTimeoutAsync(2_100);
        await floor.FocusAsync();
        // A scanner sends its keys within a few milliseconds.
        await page.EvaluateAsync("""
            code => {
              const field = document.activeElement;
              for (const key of [...code, 'Enter']) {
                const down = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
                if (field.dispatchEvent(down) && key.length === 1) { field.value += key; field.dispatchEvent(new Event('input', { bubbles: true })); }
              }
            }
            """, sheet);
        await station.ToldAsync("Nothing was counted twice");
        await Assertions.Expect(floor).ToHaveValueAsync("1.2");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task ByKeyboardAlone_AReadingOutOfLimits_IsHeldAndMadeAgain()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var (page, station) = await OpenAsync(room, "/stations/frame-1");
        await station.ScanAsync(await WaitingAsync(room));
        await station.ToldAsync("started on Frame 1");
        await page.GetByLabel("Floor, mm").FocusAsync();
        await page.Keyboard.TypeAsync("1.5", new() { Delay = 60 });
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Enter");
        await station.ToldAsync("out of its limits");
        await Screenshots.TakeAsync(page, "station-reading");
        await Axe.CleanAsync(page);
        await station.Button("Hold the sheet").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await station.ToldAsync("is on hold");
        await station.Button("Something is wrong").FocusAsync();
        await page.Keyboard.PressAsync("Space");
        await Assertions.Expect(page.Locator(".wrong-panel")).ToBeVisibleAsync();
        await Screenshots.TakeAsync(page, "station-wrong");
        await Axe.CleanAsync(page);
        await page.GetByLabel("the whole sheet").FocusAsync();
        await page.Keyboard.PressAsync("Space");
        await station.Button("Make again").FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await station.ToldAsync("made again, on sheet S");
        await page.Context.CloseAsync();
    }

    /// <summary>Contrast by WCAG 2.2, "relative luminance" and "contrast ratio" (w3.org/TR/WCAG22): 7:1 for what is read from a step away.</summary>
    [Fact]
    public async Task SettingsAndCountdown_HaveAContrastOfSeven()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var (page, station) = await OpenAsync(room, "/stations/frame-1");
        await station.ScanAsync(await WaitingAsync(room));
        await Assertions.Expect(page.Locator(".countdown.huge")).ToBeVisibleAsync();
        var contrasts = await page.EvaluateAsync<double[]>("""
            [...document.querySelectorAll('.big-settings dd, .big-settings dt, .countdown')].map(e => {
              const rgb = c => c.match(/[0-9.]+/g).map(Number);
              const light = c => { const [r, g, b] = rgb(c).map(v => v / 255).map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4); return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
              let back = e;
              while (rgb(getComputedStyle(back).backgroundColor)[3] === 0) { back = back.parentElement; }
              const [a, b] = [light(getComputedStyle(e).color), light(getComputedStyle(back).backgroundColor)].sort((x, y) => y - x);
              return (a + 0.05) / (b + 0.05);
            })
            """);
        Assert.True(contrasts.Length >= 7, $"{contrasts.Length} figures were found.");
        Assert.All(contrasts, c => Assert.True(c >= 7, $"A contrast is {c:0.0}:1."));
        await page.Context.CloseAsync();
    }

    private async Task<(IPage Page, StationPageObject Station)> OpenAsync(RoomServer room, string address)
    {
        var page = await chromium.OpenAsync(room.Url + address);
        await Chromium.SetClockAsync(page, room.Clock.GetUtcNow());
        return (page, await new StationPageObject(page).ReadyAsync());
    }

    /// <summary>The next sheet of Frame 1 that waits for back exposure, with the frame empty.</summary>
    private static async Task<string> WaitingAsync(RoomServer room)
    {
        using var http = await room.ClientAsync(Tickets.Accounts.Role.Operator);
        var sheets = System.Text.Json.JsonDocument.Parse(await http.GetStringAsync("/api/v1/board")).RootElement.GetProperty("sheets").EnumerateArray().ToList();
        foreach (var running in sheets.Where(s => s.GetProperty("state").GetString() == "Running" && s.GetProperty("equipment").GetString() == "Frame 1"))
        {
            var body = System.Text.Json.JsonSerializer.Serialize(new { id = Guid.NewGuid(), code = running.GetProperty("number").GetString(), equipment = "frame-1", action = "Finish", by = "Test", confirmed = true });
            using var reply = await http.PostAsync("/api/v1/scans", new StringContent(body, System.Text.Encoding.UTF8, "application/json"));
            reply.EnsureSuccessStatusCode();
        }

        return sheets.First(s => s.GetProperty("state").GetString() == "Waiting" && s.GetProperty("station").GetString() == "Back exposure").GetProperty("number").GetString()!;
    }
}
