using System.Diagnostics;
using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Logging;
using Npgsql;
using PlateTickets.Benchmarks.Boards;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Backups;

namespace PlateTickets.Benchmarks.Rooms;

/// <summary>
/// The whole program with its plan and board at work, on one node or several, and every machine of the room scanned again and again: the time from when a scan
/// was due until it was on disk and answered. In the same run the database's own rate of commits, as the limit. PostgreSQL is found in PLATETICKETS_POSTGRES.
/// </summary>
internal static class ScanLoad
{
    private static readonly TimeSpan BareFor = TimeSpan.FromSeconds(3);

    public static async Task<int> RunAsync(string[] args)
    {
        var options = Options.Of(args, "--rate", "--seconds", "--nodes", "--provider", "--sheets", "--history", "--backup");
        var (rate, seconds, nodes, sheets) = (options.Number("--rate", 100), options.Number("--seconds", 20), (int)options.Number("--nodes", 1), (int)options.Number("--sheets", 400));
        var postgres = (options.Text("--provider") ?? "sqlite").Equals("postgresql", StringComparison.OrdinalIgnoreCase);
        var backup = options.Number("--backup", 0) > 0;
        if (!postgres && nodes > 1)
        {
            throw new FormatException("SQLite has one node: use --provider postgresql for several.");
        }

        var data = Directory.CreateTempSubdirectory("plate-room-").FullName;
        var server = postgres ? new NpgsqlConnectionStringBuilder(Environment.GetEnvironmentVariable("PLATETICKETS_POSTGRES") ?? throw new FormatException("PLATETICKETS_POSTGRES names no server: run this under tests/postgres.")) { Database = $"plates-{Guid.NewGuid():N}" } : null;
        var clock = new RunningClock();
        var apps = new List<WebApplication>();
        try
        {
            for (var n = 0; n < nodes; n++)
            {
                var app = Build(Path.Combine(data, $"node-{n}"), server?.ConnectionString, clock);
                await PlateRoomApp.PrepareAsync(app);
                if (n == 0)
                {
                    var databases = app.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>();
                    await BoardRoom.FillAsync(databases, await app.Services.GetRequiredService<RoomCatalog>().GetAsync(), clock.GetUtcNow().UtcDateTime, sheets);
                    if ((int)options.Number("--history", 0) is > 0 and var past)
                    {
                        var making = Stopwatch.StartNew();
                        await PastSheets.AddAsync(databases, past);
                        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{past} sheets of the past made in {making.Elapsed.TotalSeconds:0} s{(postgres ? "" : $", the file has {new FileInfo(Path.Combine(data, "node-0", "plate-room.db")).Length / 1e9:0.0} GB")}"));
                    }
                }

                await app.StartAsync();
                apps.Add(app);
            }

            var bare = postgres ? await BarePostgreSqlAsync(server!.ConnectionString) : BareSqlite(Path.Combine(data, "bare.db"));
            var floor = await ScanFloor.ReadAsync(apps[0].Services);
            await Task.Delay(TimeSpan.FromSeconds(5));
            // Compiles what is used, and is not counted.
            await floor.ScanAsync(apps, rate, TimeSpan.FromSeconds(3));
            using var over = new CancellationTokenSource();
            var backups = backup ? BackUpAsync(apps[0].Services, Path.Combine(data, "backups"), over.Token) : Task.FromResult(new List<TimeSpan>());
            var (gen0, gen2, paused) = (GC.CollectionCount(0), GC.CollectionCount(2), GC.GetTotalPauseDuration());
            var measured = await floor.ScanAsync(apps, rate, TimeSpan.FromSeconds(seconds));
            (gen0, gen2, paused) = (GC.CollectionCount(0) - gen0, GC.CollectionCount(2) - gen2, GC.GetTotalPauseDuration() - paused);
            await over.CancelAsync();
            if (await backups is { Count: > 0 } made)
            {
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{made.Count} backups beside them, each made and checked in {made.Min().TotalSeconds:0.0} to {made.Max().TotalSeconds:0.0} s"));
            }

            measured.Milliseconds.Sort();
            var took = measured.Milliseconds;
            double At(double share) => took[Math.Clamp((int)Math.Ceiling(share * took.Count) - 1, 0, took.Count - 1)];
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{(postgres ? "PostgreSQL" : "SQLite")}, {nodes} node(s), {sheets} open sheets, {(rate > 0 ? $"{rate:0} scans/s asked for" : "as fast as it goes")}: {took.Count} scans in {measured.Elapsed.TotalSeconds:0.0} s = {took.Count / measured.Elapsed.TotalSeconds:0}/s, {measured.Accepted} changed a sheet"));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"ms until stored and answered: median {At(0.5):0.0}, 95 % {At(0.95):0.0}, 99 % {At(0.99):0.0}, most {took[^1]:0.0}"));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"the database's own commits of one row, one after the other: {bare:0}/s; scans at {100 * took.Count / measured.Elapsed.TotalSeconds / bare:0} % of that"));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"garbage collections meanwhile: {gen0}, {gen2} of them full; the program stood still for {paused.TotalMilliseconds:0} ms"));
            return 0;
        }
        finally
        {
            foreach (var app in apps)
            {
                await app.StopAsync();
                await app.DisposeAsync();
            }

            SqliteConnection.ClearAllPools();
            Directory.Delete(data, recursive: true);
        }
    }

    // One after the other, until the scans are over; the last one is made to its end.
    private static async Task<List<TimeSpan>> BackUpAsync(IServiceProvider services, string into, CancellationToken over)
    {
        var took = new List<TimeSpan>();
        for (var n = 0; !over.IsCancellationRequested; n++)
        {
            took.Add((await services.GetRequiredService<BackupMaker>().MakeAsync(Path.Combine(into, $"{n}"), "Benchmark", CancellationToken.None)).Took);
        }

        return took;
    }

    private static WebApplication Build(string data, string? server, TimeProvider clock) => PlateRoomApp.Build(
        [
            "--urls", "http://127.0.0.1:0", "--data", data, "--contentRoot", AppContext.BaseDirectory, "--Room:TimeZone", "UTC", "--Logging:LogLevel:Default", "Error", "--Logging:LogLevel:Microsoft", "Error",
            .. server is null ? Array.Empty<string>() : ["--Database:Provider", "PostgreSql", "--Database:ConnectionString", server],
        ],
        builder =>
        {
            builder.Services.Replace(ServiceDescriptor.Singleton(clock));
            builder.Logging.SetMinimumLevel(LogLevel.Error);
        });

    private static double BareSqlite(string file)
    {
        using var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; CREATE TABLE bare (id INTEGER PRIMARY KEY, text TEXT)";
        command.ExecuteNonQuery();
        command.CommandText = "INSERT INTO bare (text) VALUES ('a scan of a sheet at a machine, as long as one is')";
        command.Prepare();
        var (watch, count) = (Stopwatch.StartNew(), 0);
        for (; watch.Elapsed < BareFor; count++)
        {
            command.ExecuteNonQuery();
        }

        return count / watch.Elapsed.TotalSeconds;
    }

    private static async Task<double> BarePostgreSqlAsync(string server)
    {
        await using var connection = new NpgsqlConnection(server);
        await connection.OpenAsync();
        await using (var make = new NpgsqlCommand("CREATE TABLE bare (id bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY, text text)", connection))
        {
            await make.ExecuteNonQueryAsync();
        }

        await using var command = new NpgsqlCommand("INSERT INTO bare (text) VALUES ('a scan of a sheet at a machine, as long as one is')", connection);
        await command.PrepareAsync();
        var (watch, count) = (Stopwatch.StartNew(), 0);
        for (; watch.Elapsed < BareFor; count++)
        {
            await command.ExecuteNonQueryAsync();
        }

        return count / watch.Elapsed.TotalSeconds;
    }

    // A room at work: from eight in the morning, as fast as the clock on the wall.
    private sealed class RunningClock : TimeProvider
    {
        private readonly TimeSpan _shift = DateTime.UtcNow.Date.AddHours(8) - DateTime.UtcNow;

        public override DateTimeOffset GetUtcNow() => System.GetUtcNow() + _shift;
    }

    private sealed record Measured(List<double> Milliseconds, TimeSpan Elapsed, int Accepted);

    /// <summary>The sheets by the station that they wait for, and what lies in each machine.</summary>
    private sealed class ScanFloor
    {
        private readonly Lock _gate = new();
        private readonly Dictionary<Station, Queue<string>> _waiting = [];
        private readonly Dictionary<string, Queue<Station>> _routes = [];
        private readonly List<Machine> _machines = [];

        public static async Task<ScanFloor> ReadAsync(IServiceProvider services)
        {
            var floor = new ScanFloor();
            var room = await services.GetRequiredService<RoomCatalog>().GetAsync();
            await using var db = await services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
            foreach (var sheet in await db.Sheets.AsNoTracking().Include(s => s.Stages).Where(s => s.State == SheetState.Waiting || s.State == SheetState.Running).OrderBy(s => s.Id).ToListAsync())
            {
                var running = sheet.Stages.FirstOrDefault(t => t.State == StageState.Running);
                var left = new Queue<Station>(sheet.Stages.Where(t => t.State != StageState.Done).OrderBy(t => t.Station).Select(t => t.Station));
                floor._routes[sheet.Number] = left;
                if (running is not null)
                {
                    await services.GetRequiredService<ScanDesk>().RecordAsync(Scan(sheet.Number, room.EquipmentById(running.EquipmentId)!.Slug, ScanAction.Finish));
                    left.Dequeue();
                }

                floor.Put(sheet.Number);
            }

            floor._machines.AddRange(room.Equipment.Select(e => new Machine(e.Slug, [.. e.Serves])));
            return floor;
        }

        public async Task<Measured> ScanAsync(IReadOnlyList<WebApplication> nodes, double rate, TimeSpan within)
        {
            var took = new List<double>();
            var accepted = 0;
            var watch = Stopwatch.StartNew();
            await Task.WhenAll(_machines.Select((machine, m) => Task.Run(async () =>
            {
                var desk = nodes[m % nodes.Count].Services.GetRequiredService<ScanDesk>();
                // Each machine has its share, and its turn between the others'.
                var between = rate > 0 ? TimeSpan.FromSeconds(_machines.Count / rate) : TimeSpan.Zero;
                for (var due = between * ((double)m / _machines.Count); watch.Elapsed < within; due += between)
                {
                    if (due > watch.Elapsed)
                    {
                        await Task.Delay(due - watch.Elapsed);
                    }

                    // Late by its own fault counts: from when it was due.
                    var from = rate > 0 ? due : watch.Elapsed;
                    var (scan, tell) = Next(machine);
                    var reply = await desk.RecordAsync(scan);
                    tell(reply.Accepted);
                    var took1 = (watch.Elapsed - from).TotalMilliseconds;
                    lock (took)
                    {
                        took.Add(took1);
                        accepted += reply.Accepted ? 1 : 0;
                    }
                }
            })));
            return new Measured(took, watch.Elapsed, accepted);
        }

        private static ScanRequest Scan(string number, string machine, ScanAction action) =>
            new(Guid.NewGuid(), number, machine, action, "Benchmark", Confirmed: true) { Ticked = CheckLists.All };

        private (ScanRequest Scan, Action<bool> Tell) Next(Machine machine)
        {
            lock (_gate)
            {
                if (machine.Inside is { } inside)
                {
                    return (Scan(inside, machine.Slug, ScanAction.Finish), ok =>
                    {
                        machine.Inside = null;
                        lock (_gate)
                        {
                            if (ok && _routes[inside].TryDequeue(out _))
                            {
                                Put(inside);
                            }
                        }
                    }
                    );
                }

                foreach (var station in machine.Serves)
                {
                    if (_waiting.TryGetValue(station, out var queue) && queue.TryDequeue(out var number))
                    {
                        return (Scan(number, machine.Slug, ScanAction.Start), ok =>
                        {
                            machine.Inside = ok ? number : null;
                            if (!ok)
                            {
                                lock (_gate)
                                {
                                    Put(number);
                                }
                            }
                        }
                        );
                    }
                }
            }

            // Nothing waits here: a sheet that belongs elsewhere is refused, which is written too.
            return (Scan(_routes.Keys.First(), machine.Slug, ScanAction.Start), _ => { });
        }

        private void Put(string number)
        {
            if (_routes[number].TryPeek(out var station))
            {
                (_waiting.TryGetValue(station, out var queue) ? queue : _waiting[station] = new()).Enqueue(number);
            }
        }

        private sealed class Machine(string slug, IReadOnlyList<Station> serves)
        {
            public string Slug => slug;

            public IReadOnlyList<Station> Serves => serves;

            public string? Inside { get; set; }
        }
    }
}
