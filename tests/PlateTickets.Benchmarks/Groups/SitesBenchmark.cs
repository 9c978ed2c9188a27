using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json;
using PlateTickets.Process.Recipes;

namespace PlateTickets.Benchmarks.Groups;

/// <summary>
/// One program that serves 1, 2, 4 … sites of a group: what each costs in memory, at rest, and with a scan and a new plan every second. Plans are made and not
/// improved: that takes whatever is free.
/// </summary>
internal static class SitesBenchmark
{
    private const int FirstPort = 5500;
    private const int Seconds = 20;

    private static readonly string[] Ticks = [.. Enum.GetValues<CheckPoint>().Where(p => CheckLists.All.HasFlag(p) && p != CheckPoint.None).Select(p => p.ToString())];

    private static readonly string Program = Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll");

    public static async Task<int> RunAsync(string[] args)
    {
        var options = Options.Of(args, "--sites");
        var server = Environment.GetEnvironmentVariable("PLATETICKETS_POSTGRES") is { Length: > 0 } there
            ? there
            : throw new FormatException("Sites lie in PostgreSQL: bash tests/postgres dotnet run -c Release --project tests/PlateTickets.Benchmarks -- sites");
        Console.WriteLine("sites   start s   memory MB   CPU at rest %   CPU ms a scan and its plan   scans accepted");
        for (var sites = 1; sites <= (int)options.Number("--sites", 8); sites *= 2)
        {
            await RunAsync(sites, $"{server};Database=sites_{Guid.NewGuid():N}");
        }

        return 0;
    }

    private static async Task RunAsync(int sites, string database)
    {
        var data = Directory.CreateTempSubdirectory("plate-sites-").FullName;
        string[] settings =
        [
            "--Database:Provider", "PostgreSql", "--Database:ConnectionString", database, "--data", data, "--contentRoot", AppContext.BaseDirectory, "--Room:TimeZone", "UTC", "--Room:ImproveSeconds", "0",
            "--Logging:LogLevel:Default", "Error", .. Enumerable.Range(1, sites).SelectMany(i => new[] { $"--Sites:site{i}:Urls", $"http://127.0.0.1:{FirstPort + i}" }),
        ];
        var clients = new List<HttpClient>();
        try
        {
            for (var i = 1; i <= sites; i++)
            {
                using var make = System.Diagnostics.Process.Start(new ProcessStartInfo("dotnet", [Program, "keys", "create", "Benchmark", "--role", "manager", "--site", $"site{i}", .. settings]) { RedirectStandardOutput = true })!;
                var key = (await make.StandardOutput.ReadToEndAsync()).Trim();
                clients.Add(new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{FirstPort + i}"), DefaultRequestHeaders = { Authorization = new("Bearer", key) } });
            }

            var watch = Stopwatch.StartNew();
            using var program = System.Diagnostics.Process.Start("dotnet", [Program, .. settings]);
            try
            {
                await Task.WhenAll(clients.Select(AnswersAsync));
                var start = watch.Elapsed.TotalSeconds;
                // Until the plans are made and improved.
                await Task.Delay(TimeSpan.FromSeconds(35));
                var rest = await CpuAsync(program, () => Task.Delay(TimeSpan.FromSeconds(Seconds)));
                var accepted = 0;
                var work = await CpuAsync(program, async () => accepted = (await Task.WhenAll(clients.Select(ScanAsync))).Sum());
                program.Refresh();
                Console.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"{sites,5} {start,9:0.0} {program.WorkingSet64 / 1e6,11:0} {100 * rest / Seconds,15:0.0} {1000 * (work - rest) / (sites * Seconds),28:0} {accepted,9} of {sites * Seconds}"));
            }
            finally
            {
                program.Kill();
                await program.WaitForExitAsync();
            }
        }
        finally
        {
            clients.ForEach(c => c.Dispose());
            Directory.Delete(data, recursive: true);
        }
    }

    private static async Task<double> CpuAsync(System.Diagnostics.Process program, Func<Task> meanwhile)
    {
        program.Refresh();
        var before = program.TotalProcessorTime;
        await meanwhile();
        program.Refresh();
        return (program.TotalProcessorTime - before).TotalSeconds;
    }

    // One sheet after the other is put in where it waits and taken out where it runs: a change of the room, and a plan, each second.
    private static async Task<int> ScanAsync(HttpClient site)
    {
        var accepted = 0;
        for (var i = 0; i < Seconds; i++)
        {
            var tick = Task.Delay(TimeSpan.FromSeconds(1));
            var sheets = (await site.GetFromJsonAsync<JsonElement>("/api/v1/board")).GetProperty("sheets").EnumerateArray().ToList();
            var placed = sheets.Where(s => s.GetProperty("equipment").GetString() is { Length: > 0 }).ToLookup(s => s.GetProperty("state").GetString());
            var taken = placed["Running"].Select(s => s.GetProperty("equipment").GetString()).ToHashSet();
            var next = placed["Waiting"].Where(s => !taken.Contains(s.GetProperty("equipment").GetString())).Concat(placed["Running"]).ToList();
            if (next.Count > 0)
            {
                var sheet = next[0];
                var running = sheet.GetProperty("state").GetString() == "Running";
                var body = new
                {
                    id = Guid.NewGuid(),
                    code = sheet.GetProperty("number").GetString(),
                    equipment = sheet.GetProperty("equipment").GetString()!.ToLowerInvariant().Replace(' ', '-'),
                    by = "Benchmark",
                    action = running ? "Finish" : "Start",
                    confirmed = true,
                    ticked = Ticks,
                };
                using var reply = await site.PostAsJsonAsync("/api/v1/scans", body);
                accepted += reply.IsSuccessStatusCode ? 1 : 0;
            }

            await tick;
        }

        return accepted;
    }

    private static async Task AnswersAsync(HttpClient site)
    {
        for (var i = 0; i < 600; i++)
        {
            try
            {
                if ((await site.GetFromJsonAsync<JsonElement>("/api/v1/board")).GetProperty("sheets").GetArrayLength() > 0)
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

        throw new InvalidOperationException($"{site.BaseAddress} did not answer within a minute.");
    }
}
