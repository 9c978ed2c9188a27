using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Net.Sockets;
using System.Text.Json;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Web.Tests;

/// <summary>The real program as a process of its own, killed with SIGKILL between and during scans.</summary>
public sealed class CrashTests : IDisposable
{
    private const int Kills = 4;

    private readonly string _data = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");
    private readonly int _port = FreePort();
    private string _key = "";

    [Fact]
    public async Task KilledServer_HasEveryAcknowledgedScanAfterTheRestart()
    {
        // As an administrator would: the key is made by the program's command, before the server runs.
        var program = Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll");
        _key = Tool.Run("dotnet-sdk-10.0", "dotnet", program, "keys", "create", "Scanners", "--role", "operator", "--data", _data, "--Logging:LogLevel:Default", "Error").Trim();
        var acknowledged = new ConcurrentDictionary<Guid, (object Body, string Outcome)>();
        for (var round = 0; round < Kills; round++)
        {
            using var server = await StartAsync();
            await CheckAsync(acknowledged);
            using var stop = new CancellationTokenSource();
            var clients = Enumerable.Range(0, 4).Select(i => ScanUntilKilledAsync(i, acknowledged, stop.Token)).ToList();
            var before = acknowledged.Count;
            for (var waited = Stopwatch.StartNew(); acknowledged.Count < before + 60;)
            {
                Assert.False(server.HasExited, "The server ended by itself.");
                Assert.True(waited.Elapsed < TimeSpan.FromMinutes(2), "The server acknowledged fewer than 60 scans in two minutes.");
                await Task.Delay(5);
            }

            // Kill() is SIGKILL: nothing is flushed, nothing is closed.
            server.Kill();
            await server.WaitForExitAsync();
            await stop.CancelAsync();
            await Task.WhenAll(clients);
        }

        using var last = await StartAsync();
        await CheckAsync(acknowledged);
        last.Kill();
        await last.WaitForExitAsync();
        Assert.True(acknowledged.Count >= Kills * 60);
        var outcomes = acknowledged.Values.GroupBy(a => a.Outcome).ToDictionary(g => g.Key, g => g.Count());
        var counted = string.Join(", ", outcomes.Select(o => $"{o.Value} {o.Key}"));
        Assert.True(outcomes.ContainsKey("Started") && outcomes.ContainsKey("Finished"), $"The scans changed too little: {counted}.");
    }

    public void Dispose()
    {
        if (Directory.Exists(_data))
        {
            Directory.Delete(_data, recursive: true);
        }
    }

    /// <summary>Every acknowledged scan is sent again: the answer must be the one that was given, and marked as known.</summary>
    private async Task CheckAsync(ConcurrentDictionary<Guid, (object Body, string Outcome)> acknowledged)
    {
        using var http = Client();
        foreach (var (id, (body, outcome)) in acknowledged)
        {
            using var reply = await http.PostAsJsonAsync("/api/v1/scans", body);
            var answer = JsonDocument.Parse(await reply.Content.ReadAsStringAsync()).RootElement;
            Assert.True(answer.GetProperty("repeated").GetBoolean(), $"Scan {id} was acknowledged and is gone.");
            Assert.Equal(outcome, answer.GetProperty("outcome").GetString());
        }
    }

    private async Task ScanUntilKilledAsync(int seed, ConcurrentDictionary<Guid, (object, string)> acknowledged, CancellationToken stop)
    {
        var random = new Random(seed);
        string[] machines = ["frame-1", "frame-2", "imager-a", "imager-b", "line-washer", "water-washer", "thermal-unit", "dryer", "finisher", "cutting-table"];
        using var http = Client();
        try
        {
            for (var sheets = await SheetsAsync(http, stop); !stop.IsCancellationRequested; sheets = await SheetsAsync(http, stop))
            {
                var (sheet, planned, isRunning) = sheets[random.Next(sheets.Count)];
                var body = new
                {
                    id = Guid.NewGuid(),
                    code = sheet,
                    // Mostly where it belongs and what comes next, so that sheets move on at whatever time of day the test runs; at times anything anywhere.
                    equipment = planned is null || random.Next(4) == 0 ? machines[random.Next(machines.Length)] : planned,
                    action = isRunning ^ random.Next(4) == 0 ? "Finish" : "Start",
                    by = $"client {seed}",
                    confirmed = true,
                    ticked = new[] { "CoverFilmOff", "ClampsClosed", "PlainPunch", "PinBarLocked" },
                };
                using var reply = await http.PostAsJsonAsync("/api/v1/scans", body, stop);
                var answer = JsonDocument.Parse(await reply.Content.ReadAsStringAsync(stop)).RootElement;
                Assert.True(reply.StatusCode is HttpStatusCode.OK or HttpStatusCode.Conflict, answer.ToString());
                acknowledged[body.id] = (body, answer.GetProperty("outcome").GetString()!);
            }
        }
        catch (Exception e) when (e is HttpRequestException or IOException or OperationCanceledException)
        {
            // The server was killed under this client: what it was not told is not acknowledged.
        }
    }

    private static async Task<List<(string Sheet, string? Planned, bool IsRunning)>> SheetsAsync(HttpClient http, CancellationToken stop)
    {
        for (; ; await Task.Delay(50, stop))
        {
            var board = JsonDocument.Parse(await http.GetStringAsync("/api/v1/board", stop));
            var sheets = board.RootElement.GetProperty("sheets").EnumerateArray()
                .Select(s => (s.GetProperty("number").GetString()!, s.GetProperty("equipment").GetString()?.ToLowerInvariant().Replace(' ', '-'), s.GetProperty("state").GetString() == "Running")).ToList();
            if (sheets.Count > 0)
            {
                return sheets;
            }
        }
    }

    private async Task<System.Diagnostics.Process> StartAsync()
    {
        var program = Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll");
        var start = new ProcessStartInfo("dotnet", [program, "--urls", $"http://127.0.0.1:{_port}", "--data", _data, "--Logging:LogLevel:Default", "Error"])
        {
            RedirectStandardOutput = false,
        };
        var server = System.Diagnostics.Process.Start(start)!;
        using var http = Client();
        for (var i = 0; i < 600; i++)
        {
            Assert.False(server.HasExited, "The server did not start.");
            try
            {
                using var reply = await http.GetAsync("/api/v1/board");
                if (reply.IsSuccessStatusCode)
                {
                    return server;
                }
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }

            await Task.Delay(100);
        }

        server.Kill();
        throw new InvalidOperationException("The server did not answer within a minute.");
    }

    private HttpClient Client() => new()
    {
        BaseAddress = new Uri($"http://127.0.0.1:{_port}"),
        DefaultRequestHeaders = { Authorization = new AuthenticationHeaderValue("Bearer", _key) },
    };

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
