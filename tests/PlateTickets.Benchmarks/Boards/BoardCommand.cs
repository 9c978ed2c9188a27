using System.Diagnostics;
using System.Globalization;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Logging;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Startup;

namespace PlateTickets.Benchmarks.Boards;

/// <summary>
/// The whole program on loopback with all its background work, and viewers with real circuits over WebSockets in another process: from the
/// commit of a scan until the drawing that shows it has reached each viewer. The browser's own drawing is not in it. Memory is the server's
/// managed memory after a full collection, with the viewers and before them.
/// </summary>
internal static class BoardCommand
{
    private const double TargetMs = 250;
    private const double TargetKb = 500;
    // Longer than a plan of so many sheets takes here: scans that come faster than plans are another question.
    private static readonly TimeSpan Between = TimeSpan.FromSeconds(4);

    public static async Task<int> RunAsync(string[] args)
    {
        var options = Options.Of(args, "--viewers", "--sheets", "--scans", "--page");
        var (viewers, sheets, scans) = ((int)options.Number("--viewers", 200), (int)options.Number("--sheets", 2000), (int)options.Number("--scans", 30));
        if (viewers <= BoardViewers.First)
        {
            throw new FormatException($"--viewers takes more than {BoardViewers.First}.");
        }

        var page = options.Text("--page") ?? "/board";
        var data = Directory.CreateTempSubdirectory("plate-room-").FullName;
        var clock = new MorningClock();
        await using var app = PlateRoomApp.Build(
            ["--urls", "http://127.0.0.1:0", "--data", data, "--contentRoot", AppContext.BaseDirectory, "--Room:TimeZone", "UTC", "--Logging:LogLevel:Default", "Error", "--Logging:LogLevel:Microsoft", "Error"],
            builder =>
            {
                builder.Services.Replace(ServiceDescriptor.Singleton<TimeProvider>(clock));
                builder.Logging.SetMinimumLevel(LogLevel.Error);
            });
        await PlateRoomApp.PrepareAsync(app);
        var services = app.Services;
        await BoardRoom.FillAsync(services.GetRequiredService<IDbContextFactory<PlateRoomDb>>(), await services.GetRequiredService<RoomCatalog>().GetAsync(), clock.GetUtcNow().UtcDateTime, sheets);
        await app.StartAsync();
        try
        {
            var url = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
            await PlannedAsync(services);
            using var child = Start(url, page, viewers);
            // The first viewers bring what is made once for all: it belongs to none of the others.
            await AnswerAsync(child, "first");
            await Task.Delay(Between);
            var before = Memory();
            await AskAsync(child, "open", "all");
            await Task.Delay(Between);
            var perViewer = (Memory() - before) / (double)(viewers - BoardViewers.First);
            await ScanAsync(services, child, 3);
            var started = await StateAsync(child);
            var measured = await ScanAsync(services, child, scans);
            var ended = await StateAsync(child);
            await child.StandardInput.WriteLineAsync("end");
            await child.WaitForExitAsync();
            Print(viewers, sheets, page, measured, perViewer, (ended.Bytes - started.Bytes) / (double)Math.Max(1, scans) / viewers, ended.Error);
            return 0;
        }
        finally
        {
            await app.StopAsync();
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Directory.Delete(data, recursive: true);
        }
    }

    private static void Print(int viewers, int sheets, string page, Measured measured, double bytesPerViewer, double bytesPerScan, string error)
    {
        var sorted = measured.Milliseconds.Order().ToList();
        double At(double share) => sorted.Count == 0 ? double.NaN : sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Count) - 1, 0, sorted.Count - 1)];
        void Line(string what, double value, string unit, string rest) => Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-34} {value,9:0.0} {unit,-3} {rest}"));

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture, $"{page}, {viewers} circuits over WebSocket, {sheets} open sheets, {measured.Scans} scans, {Environment.ProcessorCount} cores for server and viewers together"));
        Line("scan to changed board, median", At(0.5), "ms", $"target {TargetMs:0}: {(At(0.5) <= TargetMs ? "met" : "missed")}");
        Line("scan to changed board, 95 %", At(0.95), "ms", $"target {TargetMs:0}: {(At(0.95) <= TargetMs ? "met" : "missed")}");
        Line("scan to changed board, most", At(1), "ms", "");
        Line("last viewer of each scan, median", measured.Last.Count == 0 ? double.NaN : measured.Last.Order().ElementAt(measured.Last.Count / 2), "ms", "");
        Line("server memory per viewer", bytesPerViewer / 1000, "kB", $"target {TargetKb:0}: {(bytesPerViewer / 1000 <= TargetKb ? "met" : "missed")}");
        Line("sent per viewer and scan", bytesPerScan / 1000, "kB", "with what the new plan changed");
        Console.WriteLine($"{sorted.Count} of {measured.Scans * viewers} changes reached their viewer within 15 s{(error.Length > 0 ? $"; a circuit said: {error}" : "")}");
    }

    /// <summary>Starts and finishes sheets on machines that are free, one after the other, and takes the time of each change at each viewer.</summary>
    private static async Task<Measured> ScanAsync(IServiceProvider services, System.Diagnostics.Process child, int scans)
    {
        var (board, desk, rooms, events) = (services.GetRequiredService<BoardState>(), services.GetRequiredService<ScanDesk>(), services.GetRequiredService<RoomCatalog>(), services.GetRequiredService<RoomEvents>());
        var room = await rooms.GetAsync();
        var measured = new Measured();
        for (var tries = 0; measured.Scans < scans && tries < scans * 5; tries++)
        {
            // What is taken out frees its machine; what is put in was not among the first that wait, so its number is new to the viewers.
            var machine = room.EquipmentBySlug(tries % 2 == 0 ? "frame-1" : "frame-2")!;
            foreach (var running in board.Now.Sheets.Values.Where(s => s.State == SheetState.Running && s.Stage?.EquipmentId == machine.Id).ToList())
            {
                await desk.RecordAsync(new ScanRequest(Guid.NewGuid(), running.Number, machine.Slug, ScanAction.Finish, "Benchmark", Confirmed: true));
                await Task.Delay(Between);
            }

            var next = board.Now.Sheets.Values
                .Where(s => s.State == SheetState.Waiting && s.Stage?.Station == Station.BackExposure)
                .OrderByDescending(s => s.Stage!.PlannedStartUtc).ThenBy(s => s.Id).First();
            await AskAsync(child, $"watch {next.Number}", "armed");
            long committed = 0;
            void Committed(SheetsChanged change) => Interlocked.CompareExchange(ref committed, change.SheetIds.Contains(next.Id) ? Stopwatch.GetTimestamp() : 0, 0);
            events.Changed += Committed;
            var reply = await desk.RecordAsync(new ScanRequest(Guid.NewGuid(), next.Number, machine.Slug, ScanAction.Start, "Benchmark") { Ticked = Process.Recipes.CheckLists.All });
            events.Changed -= Committed;
            if (!reply.Accepted)
            {
                continue;
            }

            await child.StandardInput.WriteLineAsync("seen 15000");
            var seen = (await child.StandardOutput.ReadLineAsync())!.Split(' ').Select(t => long.Parse(t, CultureInfo.InvariantCulture)).ToList();
            // The clock of Stopwatch is the same in both processes.
            var times = seen.Where(t => t >= committed).Select(t => Stopwatch.GetElapsedTime(committed, t).TotalMilliseconds).ToList();
            measured.Add(times);
            await Task.Delay(Between);
        }

        return measured;
    }

    private static System.Diagnostics.Process Start(string url, string page, int viewers) => System.Diagnostics.Process.Start(new ProcessStartInfo(
        "dotnet", [Path.Combine(AppContext.BaseDirectory, "PlateTickets.Benchmarks.dll"), BoardViewers.Command, url, page, viewers.ToString(CultureInfo.InvariantCulture)])
    {
        RedirectStandardInput = true,
        RedirectStandardOutput = true,
    })!;

    private static async Task AskAsync(System.Diagnostics.Process child, string line, string answer)
    {
        await child.StandardInput.WriteLineAsync(line);
        await AnswerAsync(child, answer);
    }

    private static async Task AnswerAsync(System.Diagnostics.Process child, string answer)
    {
        var line = await child.StandardOutput.ReadLineAsync();
        if (line != answer)
        {
            throw new InvalidOperationException($"The viewers said “{line}” instead of “{answer}”.");
        }
    }

    private static async Task<(long Batches, long Bytes, string Error)> StateAsync(System.Diagnostics.Process child)
    {
        await child.StandardInput.WriteLineAsync("state");
        var parts = (await child.StandardOutput.ReadLineAsync())!.Split(' ', 3);
        return (long.Parse(parts[0], CultureInfo.InvariantCulture), long.Parse(parts[1], CultureInfo.InvariantCulture), parts[2]);
    }

    // The first plan and its simulation are over: a room at work has them.
    private static async Task PlannedAsync(IServiceProvider services)
    {
        var book = services.GetRequiredService<PlanBook>();
        for (var i = 0; i < 1200 && book.Now is not { Outlooks.Count: > 0 }; i++)
        {
            await Task.Delay(100);
        }

        await Task.Delay(TimeSpan.FromSeconds(5));
    }

    private static long Memory()
    {
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        GC.WaitForPendingFinalizers();
        return GC.GetTotalMemory(forceFullCollection: true);
    }

    private sealed class Measured
    {
        public int Scans { get; private set; }

        public List<double> Milliseconds { get; } = [];

        /// <summary>Until the last viewer had it, of each scan.</summary>
        public List<double> Last { get; } = [];

        public void Add(List<double> times)
        {
            Scans++;
            Milliseconds.AddRange(times);
            if (times.Count > 0)
            {
                Last.Add(times.Max());
            }
        }
    }

    /// <summary>A clock that runs as ours does, but began at eight in the morning: the early shift is at work whenever this is run.</summary>
    private sealed class MorningClock : TimeProvider
    {
        private readonly TimeSpan _shift = DateTime.UtcNow.Date.AddHours(8) - DateTime.UtcNow;

        public override DateTimeOffset GetUtcNow() => System.GetUtcNow() + _shift;
    }
}
