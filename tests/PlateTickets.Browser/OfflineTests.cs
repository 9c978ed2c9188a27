using System.Net.Http.Headers;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using PlateTickets.Browser.Pages;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using Xunit.Abstractions;

namespace PlateTickets.Browser;

/// <summary>
/// A tablet in a bad network: readings go on while the network is pulled, the server is killed with SIGKILL and the page is loaded
/// again. Whatever was read is in the database afterwards: once, in its order, with its own time.
/// </summary>
public sealed class OfflineTests(Chromium chromium, ITestOutputHelper output) : IClassFixture<Chromium>
{
    private const int Scans = 500;
    private const int Faults = 50;

    [Fact]
    public async Task FiveHundredScans_ThroughFiftyFaults_NoneLost_NoneDoubled_InOrder()
    {
        await using var server = new KilledServer();
        await server.StartAsync();
        var sheets = await server.SheetsAsync();
        var page = await chromium.OpenAsync($"{server.Url}/stations/frame-1");
        var station = await new StationPageObject(page).ReadyAsync();
        var random = new Random(20261126);
        var typed = new List<string>();
        var (offline, down, faults) = (false, false, new Dictionary<string, int>());
        for (var i = 0; i < Scans; i++)
        {
            if (i % (Scans / Faults) == 5)
            {
                var fault = i / (Scans / Faults) % 8 == 3 ? "server" : random.Next(3) == 0 && !down && !offline ? "reload" : "network";
                faults[fault] = faults.GetValueOrDefault(fault) + 1;
                switch (fault)
                {
                    case "server":
                        // SIGKILL in the middle; it comes back after some more readings.
                        await page.EvaluateAsync("window.beforeTheKill = true");
                        await server.KillAsync();
                        down = true;
                        break;
                    case "network":
                        offline = !offline;
                        await page.Context.SetOfflineAsync(offline);
                        break;
                    default:
                        await page.ReloadAsync();
                        await station.ReadyAsync();
                        break;
                }
            }
            else if (down && i % (Scans / Faults) == 2)
            {
                await server.StartAsync();
                down = false;
                if (offline)
                {
                    offline = false;
                    await page.Context.SetOfflineAsync(false);
                }

                // The circuit of the killed server is gone: the page loads itself again, and a person waits until it is there.
                await LoadedAgainAsync(page);
                await station.ReadyAsync();
            }

            var code = sheets[random.Next(sheets.Count)];
            if (typed.Count > 0 && typed[^1] == code)
            {
                // The same code within two seconds is one reading, on purpose.
                code = sheets[(sheets.IndexOf(code) + 1) % sheets.Count];
            }

            typed.Add(code);
            await page.Keyboard.TypeAsync(code);
            await page.Keyboard.PressAsync("Enter");
            if (i % (Scans / Faults) is 1 or 4 or 9)
            {
                // Whoever reloads a page looks first whether the last reading was taken; in between a hand scanner does not wait.
                await Assertions.Expect(station.Told).ToContainTextAsync(Grouped(code));
            }
        }

        await page.Context.SetOfflineAsync(false);
        if (down)
        {
            await server.StartAsync();
        }

        await Assertions.Expect(station.LinkBar).ToBeHiddenAsync(new() { Timeout = 60_000 });
        await UntilEmptyAsync(page);
        output.WriteLine($"{Scans} scans, faults: {string.Join(", ", faults.Select(f => $"{f.Value} {f.Key}"))}; {await station.ToSettle.CountAsync()} to settle");
        Assert.True(faults.Values.Sum() >= Faults);
        Assert.Equal(3, faults.Count);

        // What was typed is what the database holds: none lost, none doubled, in the same order.
        await server.KillAsync();
        var kept = server.ReadScans();
        Assert.Equal(Scans, kept.Select(k => k.Id).Distinct().Count());
        Assert.Equal(typed, kept.Select(k => k.Code));
        foreach (var sheet in kept.GroupBy(k => k.Code))
        {
            Assert.Equal(sheet.Select(s => s.ReadUtc).Order(), sheet.Select(s => s.ReadUtc));
        }

        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task WithoutANetwork_ItSaysSo_Counts_AndTheRefusedOnesAreSettledByHand()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var page = await chromium.OpenAsync(room.Url + "/stations/dryer", 1024, 768);
        await Chromium.SetClockAsync(page, room.Clock.GetUtcNow());
        var station = await new StationPageObject(page).ReadyAsync();
        await page.Context.SetOfflineAsync(true);
        await station.ScanAsync("4006381333931");
        await station.ToldAsync("Kept on this tablet: 4006381333931. It is sent by itself when the connection is back.");
        await Assertions.Expect(station.LinkBar).ToContainTextAsync("Offline. Go on scanning: 1 scan waits on this tablet.");
        await station.ScanAsync("SECOND-CODE");
        await Assertions.Expect(station.LinkBar).ToContainTextAsync("2 scans wait on this tablet");
        await Screenshots.TakeAsync(page, "station-offline");
        await page.Context.SetOfflineAsync(false);
        await Assertions.Expect(station.LinkBar).ToBeHiddenAsync();
        await Assertions.Expect(station.ToSettle).ToHaveCountAsync(2);
        await Assertions.Expect(station.ToSettle.First).ToContainTextAsync("“4006381333931” is not a sheet number.");

        // The list survives a reload, and goes one by one.
        await page.ReloadAsync();
        await Assertions.Expect(station.ToSettle).ToHaveCountAsync(2);
        await Screenshots.TakeAsync(page, "station-settle");
        await station.ToSettle.First.GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(station.ToSettle).ToHaveCountAsync(1);
        await station.ToSettle.First.GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(station.ToSettle).ToHaveCountAsync(0);
        await page.Context.CloseAsync();
    }

    [Theory]
    [InlineData(401)]
    [InlineData(403)]
    [InlineData(302)]
    public async Task NotSignedIn_TheScanIsKept_AndSentAfterSigningIn(int status)
    {
        await using var room = await RoomServer.StartAsync("demo");
        var page = await chromium.OpenAsync(room.Url + "/stations/frame-1");
        await Chromium.SetClockAsync(page, room.Clock.GetUtcNow());
        var station = await new StationPageObject(page).ReadyAsync();
        await page.RouteAsync("**/api/v1/scans", route => route.FulfillAsync(new() { Status = status, Headers = status == 302 ? [new("Location", "/")] : [] }));
        await station.ScanAsync("4006381333931");
        await Assertions.Expect(station.LinkBar).ToContainTextAsync("Not signed in: 1 scan waits on this tablet. Sign in again; nothing is lost.");
        await Assertions.Expect(station.Button("Sign in")).ToBeVisibleAsync();
        // Before the way is free again: the next try by itself would get through and take the button away.
        await station.Button("Sign in").ClickAsync();
        await page.UnrouteAllAsync();
        await Assertions.Expect(station.ToSettle).ToHaveCountAsync(1);
        await Assertions.Expect(station.LinkBar).ToBeHiddenAsync();
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task WrongClockOfTheTablet_IsToldAndCorrected()
    {
        await using var room = await RoomServer.StartAsync("demo");
        var page = await chromium.OpenAsync(room.Url + "/stations/frame-1");
        await Chromium.SetClockAsync(page, room.Clock.GetUtcNow().AddMinutes(-12));
        var station = await new StationPageObject(page).ReadyAsync();
        await station.ScanAsync("4006381333931");
        await station.ToldAsync("is not a sheet number");
        await Assertions.Expect(station.LinkBar).ToContainTextAsync("This tablet's clock is 12 min slow. The times of its scans are corrected; have it set.");
        await page.Context.CloseAsync();
    }

    /// <summary>Really full: nothing that the server could not store is lost, and the tablet says whose turn it is.</summary>
    [Fact]
    public async Task DiskOfTheServerFull_TheTabletSaysSo_KeepsTheReading_AndDeliversItWhenThereIsRoom()
    {
        using var disk = new SmallDisk();
        await using var room = await RoomServer.StartInAsync(disk.Data, "demo", disk.Customise);
        var page = await chromium.OpenAsync(room.Url + "/stations/frame-1");
        await Chromium.SetClockAsync(page, room.Clock.GetUtcNow());
        var station = await new StationPageObject(page).ReadyAsync();
        disk.Fill(leave: 0);
        var typed = new List<string>();
        // The log may have some room of its own left.
        for (var told = ""; !told.StartsWith("Kept", StringComparison.Ordinal) && typed.Count < 400;)
        {
            typed.Add($"4006381{typed.Count:000000}");
            await station.ScanAsync(typed[^1]);
            await Assertions.Expect(station.Told).ToContainTextAsync(new Regex($"(Kept on this tablet: |“){typed[^1]}"));
            told = (await station.Told.Locator(".told-text").TextContentAsync())!;
        }

        await Assertions.Expect(station.LinkBar).ToContainTextAsync("The server cannot take scans at the moment: 1 scan waits on this tablet and is sent by itself.");
        await Assertions.Expect(station.LinkBar).ToContainTextAsync("The disk of the database is full, so nothing can be saved. Make room on that disk");
        disk.Empty();
        await Assertions.Expect(station.LinkBar).ToBeHiddenAsync();
        await UntilEmptyAsync(page);
        await using var db = await room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
        Assert.Equal(typed, await db.Scans.Where(s => s.Code.StartsWith("4006381")).OrderBy(s => s.Code).Select(s => s.Code).ToListAsync());
        await page.Context.CloseAsync();
    }

    private static async Task UntilEmptyAsync(IPage page)
    {
        for (var i = 0; i < 600; i++)
        {
            var waiting = await page.EvaluateAsync<int>("""
                () => new Promise(done => {
                  const open = indexedDB.open('plate-room-scans', 1);
                  open.onsuccess = () => {
                    const count = open.result.transaction('waiting').objectStore('waiting').count();
                    count.onsuccess = () => { open.result.close(); done(count.result); };
                  };
                })
                """);
            if (waiting == 0)
            {
                return;
            }

            await Task.Delay(100);
        }

        Assert.Fail("Readings still wait on the tablet a minute after the server is back.");
    }

    // Asked again and again from here: a function that waits inside the page would need eval, which its policy forbids.
    private static async Task LoadedAgainAsync(IPage page)
    {
        for (var i = 0; i < 900; i++)
        {
            try
            {
                if (await page.EvaluateAsync<bool>("!window.beforeTheKill && document.querySelector('.scan-field') !== null"))
                {
                    return;
                }
            }
            catch (PlaywrightException)
            {
                // The page is being loaded at this moment.
            }

            await Task.Delay(100);
        }

        Assert.Fail("The page did not come back within 90 s of the server's return.");
    }

    private static string Grouped(string code) => $"{code[..4]} {code[4..8]} {code[8..]}";

    /// <summary>The program as a process of its own, which can be killed and comes back on the same port with the same data.</summary>
    private sealed class KilledServer : IAsyncDisposable
    {
        private readonly string _data = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");
        private readonly int _port = FreePort();
        private System.Diagnostics.Process? _process;
        private string _key = "";

        public string Url => $"http://127.0.0.1:{_port}";

        public async Task StartAsync()
        {
            if (_key.Length == 0)
            {
                _key = Tool.Run("dotnet-sdk-10.0", "dotnet", Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll"), "keys", "create", "Test", "--role", "operator", "--data", _data, "--Logging:LogLevel:Default", "Error").Trim();
            }

            _process = System.Diagnostics.Process.Start("dotnet",
            [
                Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll"), "--urls", Url, "--data", _data, "--Logging:LogLevel:Default", "Error",
                "--contentRoot", Path.Combine(Repository.Root, "src", "PlateTickets.Web"), "--Room:ImproveSeconds", "0",
            ]);
            using var http = Client();
            for (var i = 0; i < 1200; i++)
            {
                Assert.False(_process.HasExited, "The server did not start.");
                try
                {
                    using var reply = await http.GetAsync(Url + "/api/v1/board");
                    if (reply.IsSuccessStatusCode)
                    {
                        return;
                    }
                }
                catch (HttpRequestException)
                {
                    // Not listening yet.
                }

                await Task.Delay(100);
            }

            Assert.Fail("The server did not answer within two minutes.");
        }

        public async Task<List<string>> SheetsAsync()
        {
            using var http = Client();
            for (; ; await Task.Delay(100))
            {
                var board = JsonDocument.Parse(await http.GetStringAsync(Url + "/api/v1/board"));
                List<string> sheets = [.. board.RootElement.GetProperty("sheets").EnumerateArray().Select(s => s.GetProperty("number").GetString()!).Take(12)];
                if (sheets.Count == 12)
                {
                    return sheets;
                }
            }
        }

        private HttpClient Client() => new() { DefaultRequestHeaders = { Authorization = new AuthenticationHeaderValue("Bearer", _key) } };

        public async Task KillAsync()
        {
            // Kill() is SIGKILL: nothing is flushed, nothing is closed.
            _process!.Kill();
            await _process.WaitForExitAsync();
            _process.Dispose();
            _process = null;
        }

        /// <summary>The scans of the test in the order in which the server wrote them; those of the demo's past have other readers.</summary>
        public List<(string Id, string Code, DateTime ReadUtc)> ReadScans()
        {
            using var database = new SqliteConnection($"Data Source={Directory.GetFiles(_data, "*.db").Single()}");
            database.Open();
            using var command = database.CreateCommand();
            command.CommandText = "select Id, Code, ReadUtc from Scans where \"By\" = 'Demo manager' order by rowid";
            using var reader = command.ExecuteReader();
            var scans = new List<(string, string, DateTime)>();
            while (reader.Read())
            {
                scans.Add((reader.GetString(0), reader.GetString(1), reader.GetDateTime(2)));
            }

            return scans;
        }

        public async ValueTask DisposeAsync()
        {
            if (_process is not null)
            {
                await KillAsync();
            }

            SqliteConnection.ClearAllPools();
            Directory.Delete(_data, recursive: true);
        }

        private static int FreePort()
        {
            using var listener = new System.Net.Sockets.TcpListener(System.Net.IPAddress.Loopback, 0);
            listener.Start();
            return ((System.Net.IPEndPoint)listener.LocalEndpoint).Port;
        }
    }
}
