using System.Diagnostics;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using PlateTickets.Browser.Pages;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using Xunit.Abstractions;

namespace PlateTickets.Browser;

/// <summary>The main job as its users do it: order with real separations, traveler, seven stations, and a board in a second browser.</summary>
public sealed class WholeDayTests(Chromium chromium, ITestOutputHelper output) : IClassFixture<Chromium>
{
    private static readonly (string Station, string Machine)[] Route =
    [
        ("Back exposure", "frame-1"), ("Imaging", "imager-b"), ("Face exposure", "frame-2"),
        ("Washout", "line-washer"), ("Drying", "dryer"), ("Post-finish", "finisher"), ("Cutting", "cutting-table"),
    ];

    [Fact]
    public async Task Order_traveler_seven_stations_and_the_board()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var folder = Directory.CreateTempSubdirectory("separations-").FullName;
        try
        {
            // Repeat 400 mm on a plate of 1.70 mm with a base of 0.125 mm: flat length 390.104 mm (computed, K = 2 pi x 1.575 mm).
            var files = GhostscriptJob.Make(folder, "job", widthMm: 150, heightMm: 390.104);
            var page = await chromium.OpenAsync(room.Url + "/orders/new");
            var (ticket, sheet) = await EnterOrderAsync(page, files);
            await Screenshots.TakeAsync(page, "ticket");

            await CheckTravelerAsync(room, folder, sheet, "a4");
            await CheckTravelerAsync(room, folder, sheet, "letter");

            var board = await chromium.OpenAsync(room.Url + "/board?customer=Northmere%20Dairy");
            var card = board.Locator($"article[data-sheet={sheet}]");
            await Assertions.Expect(board.GetByRole(AriaRole.Region, new() { Name = "Back exposure" }).Locator($"article[data-sheet={sheet}]")).ToBeVisibleAsync();
            await Screenshots.TakeAsync(board, "board");

            var station = await chromium.OpenAsync(room.Url + "/stations/frame-1");
            await WrongScansAsync(station, sheet, ticket);
            var slowest = TimeSpan.Zero;
            foreach (var (name, machine) in Route)
            {
                slowest = Max(slowest, await PassAsync(room, station, board, sheet, name, machine));
            }

            await Assertions.Expect(card).ToHaveCountAsync(0);
            await page.ReloadAsync();
            await Assertions.Expect(page.Locator(".state")).ToHaveTextAsync("Done");
            Assert.Empty(chromium.ForeignRequests);
            output.WriteLine($"Slowest of seven scans to reach the board in the other browser: {slowest.TotalMilliseconds:0} ms");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<(string Ticket, string Sheet)> EnterOrderAsync(IPage page, string[] files)
    {
        var order = new NewOrderPageObject(page);
        await order.FillAsync("Northmere Dairy", "Butter foil 250 g, browser test", "Press 1, wide film");
        var notes = Path.Combine(Path.GetDirectoryName(files[0])!, "notes.tif");
        await File.WriteAllTextAsync(notes, "These are notes, not an image.");
        await order.DropAsync([.. files, notes]);

        foreach (var colour in new[] { "Cyan", "Magenta", "Yellow", "Black", GhostscriptJob.Spot })
        {
            var row = order.Row($"({colour}).tif");
            await Assertions.Expect(row).ToContainTextAsync("150 × 390.1 mm");
            await Assertions.Expect(row).ToContainTextAsync("Right:");
        }

        // The file that is no image has its sentence, the other five are kept.
        await Assertions.Expect(order.Row("notes.tif")).ToContainTextAsync("not a TIFF");
        await Screenshots.TakeAsync(page, "new-order");
        await order.Row("notes.tif").GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(page.GetByText("5 plates on 1 sheet (")).ToBeVisibleAsync();
        await order.Save.ClickAsync();
        // No page is loaded, the address only changes: waiting for a load would wait for nothing.
        await Assertions.Expect(page).ToHaveURLAsync(new Regex("/tickets/T"));
        await Assertions.Expect(page.Locator(".stages tbody tr")).ToHaveCountAsync(7);
        await Assertions.Expect(page.Locator(".stages")).ToContainTextAsync("mJ/cm²");
        var section = page.Locator(".sheet-section");
        await Assertions.Expect(section.Locator(".when dd").First).Not.ToHaveTextAsync("–");
        return (page.Url[^9..], (await section.GetAttributeAsync("id"))!);
    }

    private static async Task CheckTravelerAsync(RoomServer room, string folder, string sheet, string paper)
    {
        using var http = await room.ClientAsync(Role.Operator);
        var pdf = Path.Combine(folder, $"traveler-{paper}.pdf");
        await File.WriteAllBytesAsync(pdf, await http.GetByteArrayAsync($"{room.Url}/api/v1/sheets/{sheet}/traveler.pdf?paper={paper}"));
        Tool.Run("poppler-utils", "pdftoppm", "-r", "300", "-png", "-f", "1", "-l", "1", pdf, pdf);
        var image = Directory.GetFiles(folder, $"traveler-{paper}.pdf*.png").Single();
        var codes = Tool.Run("zbar-tools", "zbarimg", "-q", image);
        Assert.Contains($"QR-Code:{sheet}", codes, StringComparison.Ordinal);
        Assert.Contains($"CODE-128:{sheet}", codes, StringComparison.Ordinal);
        Screenshots.Keep(image, $"traveler-{paper}");
    }

    private static async Task WrongScansAsync(IPage page, string sheet, string ticket)
    {
        var station = await new StationPageObject(page).ReadyAsync();
        await station.ScanAsync("4006381333931");
        await station.ToldAsync("is not a sheet number");
        await station.ScanAsync(sheet[..8] + (sheet[8] == '3' ? '4' : '3'));
        await station.ToldAsync("was misread: its check character does not fit");
        await station.ScanAsync(ticket);
        await station.ToldAsync("is a ticket");
        await page.GotoAsync(page.Url.Replace("frame-1", "dryer", StringComparison.Ordinal));
        await new StationPageObject(page).ReadyAsync();
        await station.ScanAsync(sheet);
        await station.ToldAsync("is not for Dryer now. Next is back exposure");
    }

    /// <summary>Starts by scan, finishes by scan; returns how long the board in the other browser took to show the start.</summary>
    private static async Task<TimeSpan> PassAsync(RoomServer room, IPage page, IPage board, string sheet, string name, string machine)
    {
        await Chromium.SetClockAsync(page, room.Clock.GetUtcNow());
        await page.GotoAsync($"{room.Url}/stations/{machine}");
        var station = await new StationPageObject(page).ReadyAsync();
        await FreeAsync(room, machine);
        if (name is "Imaging" or "Washout")
        {
            // What the recipe wants ticked is asked for first; the same code within two seconds counts as one reading.
            await station.ScanAsync(sheet);
            await station.ToldAsync("tick: ");
            await station.TickAsync();
            await Screenshots.TakeAsync(page, $"station-{machine}-checks");
            await page.WaitForTimeoutAsync(2_100);
        }

        await station.ScanAsync(sheet);
        var watch = Stopwatch.StartNew();
        try
        {
            await Assertions.Expect(board.GetByRole(AriaRole.Region, new() { Name = name, Exact = true }).Locator($"article.running[data-sheet={sheet}]")).ToBeVisibleAsync();
        }
        catch (PlaywrightException e)
        {
            // What the station says is the other half of the story.
            throw new InvalidOperationException($"The board does not show {name} running. The station says: {await page.Locator(".told").InnerTextAsync()}", e);
        }

        watch.Stop();
        await station.ToldAsync($"{name} of sheet");
        await Screenshots.TakeAsync(page, $"station-{machine}");

        // A second reading while it runs is answered and counts nothing twice. The page ignores the same code for two seconds.
        await page.WaitForTimeoutAsync(2_100);
        await station.ScanAsync(sheet);
        await station.ToldAsync("Nothing was counted twice");

        var run = await RunSecondsAsync(room, sheet, name);
        room.Clock.Advance(TimeSpan.FromSeconds(run.Total));
        await page.WaitForTimeoutAsync(2_100);
        await station.ScanAsync(sheet);
        await station.ToldAsync(name == "Cutting" ? "is complete" : "finished. Next is");
        // The tablet's clock runs on while the room's stands: its finish is some seconds later, and so is the end of the rest.
        room.Clock.Advance(TimeSpan.FromSeconds(run.Wait + 30));
        return watch.Elapsed;
    }

    /// <summary>Empties a machine that the demo's own sheets occupy, as its operator would.</summary>
    private static async Task FreeAsync(RoomServer room, string machine)
    {
        using var http = await room.ClientAsync(Role.Operator);
        var board = JsonDocument.Parse(await http.GetStringAsync("/api/v1/board"));
        var names = new Dictionary<string, string> { ["frame-1"] = "Frame 1", ["frame-2"] = "Frame 2", ["imager-b"] = "Imager B", ["line-washer"] = "Line washer", ["dryer"] = "Dryer", ["finisher"] = "Finisher", ["cutting-table"] = "Cutting table" };
        foreach (var sheet in board.RootElement.GetProperty("sheets").EnumerateArray())
        {
            if (sheet.GetProperty("state").GetString() == "Running" && sheet.GetProperty("equipment").GetString() == names[machine])
            {
                var body = JsonSerializer.Serialize(new { id = Guid.NewGuid(), code = sheet.GetProperty("number").GetString(), equipment = machine, action = "Finish", by = "Test", confirmed = true });
                using var reply = await http.PostAsync("/api/v1/scans", new StringContent(body, System.Text.Encoding.UTF8, "application/json"));
                reply.EnsureSuccessStatusCode();
            }
        }
    }

    private static async Task<(int Total, int Wait)> RunSecondsAsync(RoomServer room, string sheet, string station)
    {
        using var http = await room.ClientAsync(Role.Operator);
        var board = JsonDocument.Parse(await http.GetStringAsync("/api/v1/board"));
        var ticket = board.RootElement.GetProperty("sheets").EnumerateArray()
            .Single(s => s.GetProperty("number").GetString() == sheet).GetProperty("tickets")[0].GetString();
        var view = JsonDocument.Parse(await http.GetStringAsync($"/api/v1/tickets/{ticket}"));
        var stage = view.RootElement.GetProperty("sheets").EnumerateArray().Single(s => s.GetProperty("number").GetString() == sheet)
            .GetProperty("stages").EnumerateArray().Single(s => s.GetProperty("station").GetString() == station);
        var total = stage.GetProperty("loadSeconds").GetInt32() + stage.GetProperty("runSeconds").GetInt32() + stage.GetProperty("unloadSeconds").GetInt32();
        return (total, station == "Drying" ? 1800 : 0);
    }

    private static TimeSpan Max(TimeSpan a, TimeSpan b) => a > b ? a : b;
}
