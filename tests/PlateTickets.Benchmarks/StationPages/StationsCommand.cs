using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Playwright;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets;

namespace PlateTickets.Benchmarks.StationPages;

/// <summary>
/// Station pages open in real Chromium, the program as a process of its own on loopback: the time from the scanner's Enter until the
/// answer stands on the page, measured in the page.
/// </summary>
internal static class StationsCommand
{
    private static readonly string[] Machines =
        ["frame-1", "frame-2", "imager-a", "imager-b", "line-washer", "water-washer", "thermal-unit", "dryer", "finisher", "cutting-table"];

    // From the key of the scanner to the change of the field that tells the answer; and the part of it that the program takes to answer the request.
    // Nothing polls in the page meanwhile.
    private const string Watch = """
        window.tookMs = [];
        window.requestMs = [];
        let from = 0;
        let heard = null;
        window.scanAnswered = () => from === 0 ? true : new Promise(done => { heard = done; });
        const ask = window.fetch;
        window.fetch = async (...args) => {
          const sent = performance.now();
          const reply = await ask(...args);
          if (args[0] === 'api/v1/scans') { window.requestMs.push(performance.now() - sent); }
          return reply;
        };
        addEventListener('keydown', e => { if (e.key === 'Enter') { from = performance.now(); } }, true);
        new MutationObserver(() => {
          const told = document.querySelector('.told');
          if (from > 0 && told && /good|bad/.test(told.className)) { window.tookMs.push(performance.now() - from); from = 0; heard?.(true); }
        }).observe(document, { subtree: true, attributes: true, attributeFilter: ['class'] });
        """;

    public static int Run(string[] args) => RunAsync(args).GetAwaiter().GetResult();

    private static async Task<int> RunAsync(string[] args)
    {
        var options = Options.Of(args, "--pages", "--scans", "--pause");
        var (count, scans, pause) = ((int)options.Number("--pages", 20), (int)options.Number("--scans", 300), (int)options.Number("--pause", 150));
        var data = Directory.CreateTempSubdirectory("plate-room-").FullName;
        using var make = System.Diagnostics.Process.Start(new System.Diagnostics.ProcessStartInfo(
            "dotnet", [Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll"), "keys", "create", "Benchmark", "--role", "manager", "--data", data, "--Logging:LogLevel:Default", "Error"])
        { RedirectStandardOutput = true })!;
        var key = (await make.StandardOutput.ReadToEndAsync()).Trim();
        await make.WaitForExitAsync();
        await AskForNoTicksAsync(Path.Combine(data, "plate-room.db"));
        using var server = System.Diagnostics.Process.Start("dotnet", [Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll"), "--urls", "http://127.0.0.1:5480", "--data", data, "--contentRoot", AppContext.BaseDirectory, "--Logging:LogLevel:Default", "Error"]);
        try
        {
            using var http = new HttpClient { BaseAddress = new Uri("http://127.0.0.1:5480"), DefaultRequestHeaders = { Authorization = new("Bearer", key) } };
            await AnswersAsync(http);
            using var playwright = await Playwright.CreateAsync();
            await using var browser = await playwright.Chromium.LaunchAsync(new()
            {
                ExecutablePath = "/usr/bin/chromium",
                Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
            });
            var pages = new List<(IPage Page, string Machine)>();
            for (var i = 0; i < count; i++)
            {
                // Every tablet has a storage of its own.
                var page = await (await browser.NewContextAsync()).NewPageAsync();
                await page.GotoAsync($"{http.BaseAddress}sign-in");
                await page.GetByRole(AriaRole.Button, new() { Name = "operator" }).ClickAsync();
                await page.WaitForURLAsync(http.BaseAddress.ToString());
                await page.AddInitScriptAsync(Watch);
                await page.GotoAsync($"{http.BaseAddress}stations/{Machines[i % Machines.Length]}");
                await page.Locator(".scan-field:focus").WaitForAsync(new() { Timeout = 60_000 });
                pages.Add((page, Machines[i % Machines.Length]));
            }

            await ScanAsync(http, pages, 2 * count, pause);
            foreach (var (page, _) in pages)
            {
                await page.EvaluateAsync("window.tookMs = []; window.requestMs = [];");
            }

            var accepted = await ScanAsync(http, pages, scans, pause);
            var (took, requests) = (new List<double>(), new List<double>());
            foreach (var (page, _) in pages)
            {
                took.AddRange(await page.EvaluateAsync<double[]>("window.tookMs"));
                requests.AddRange(await page.EvaluateAsync<double[]>("window.requestMs"));
            }

            took.Sort();
            requests.Sort();
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{count} station pages, {took.Count} of {scans} scans answered ({accepted} changed a sheet), scan to confirmation, ms: median {At(took, 0.5):0}, 95 % {At(took, 0.95):0}, 99 % {At(took, 0.99):0}, most {took[^1]:0}; of it the request: median {At(requests, 0.5):0}, 95 % {At(requests, 0.95):0}"));
            return took.Count == scans ? 0 : 1;
        }
        finally
        {
            server.Kill();
            await server.WaitForExitAsync();
            Directory.Delete(data, recursive: true);
        }
    }

    /// <summary>One scan after the other at one machine after the other: what waits there is started; what runs there is taken out first.</summary>
    private static async Task<int> ScanAsync(HttpClient http, List<(IPage Page, string Machine)> pages, int scans, int pause)
    {
        var accepted = 0;
        for (var i = 0; i < scans; i++)
        {
            var (page, machine) = pages[i % pages.Count];
            var here = (await http.GetFromJsonAsync<JsonElement>("/api/v1/board")).GetProperty("sheets").EnumerateArray()
                .Where(s => s.GetProperty("equipment").GetString()?.ToLowerInvariant().Replace(' ', '-') == machine).ToList();
            foreach (var running in here.Where(s => s.GetProperty("state").GetString() == "Running"))
            {
                var body = new { id = Guid.NewGuid(), code = running.GetProperty("number").GetString(), equipment = machine, by = "Benchmark", action = "Finish", confirmed = true };
                using var reply = await http.PostAsJsonAsync("/api/v1/scans", body);
                reply.EnsureSuccessStatusCode();
            }

            // Longer than the page takes the same code for the same reading, over all pages together; what was just finished is planned anew meanwhile.
            await Task.Delay(Math.Max(pause, 2200 / pages.Count));
            var code = here.Where(s => s.GetProperty("state").GetString() == "Waiting").Select(s => s.GetProperty("number").GetString()).FirstOrDefault() ?? "SR32CJ601";
            await page.Keyboard.TypeAsync(code, new() { Delay = 6 });
            await page.Keyboard.PressAsync("Enter");
            await page.EvaluateAsync("window.scanAnswered()").WaitAsync(TimeSpan.FromSeconds(30));
            accepted += await page.Locator(".told.good").CountAsync();
        }

        return accepted;
    }

    // A scan then starts the stage at once; with points to tick it opens the list, and fingers would be measured.
    private static async Task AskForNoTicksAsync(string file)
    {
        await using var db = new PlateRoomDb(new DbContextOptionsBuilder<PlateRoomDb>().UseSqlite($"Data Source={file}").Options);
        foreach (var revision in await db.RecipeRevisions.ToListAsync())
        {
            revision.Settings = revision.Settings with { MustTick = CheckPoint.None };
        }

        await db.SaveChangesAsync();
    }

    private static async Task AnswersAsync(HttpClient http)
    {
        for (var i = 0; i < 600; i++)
        {
            try
            {
                if ((await http.GetFromJsonAsync<JsonElement>("/api/v1/board")).GetProperty("sheets").GetArrayLength() > 0)
                {
                    return;
                }
            }
            catch (HttpRequestException)
            {
                // Not listening yet.
            }

            await Task.Delay(200);
        }

        throw new InvalidOperationException("The server did not answer within two minutes.");
    }

    private static double At(List<double> sorted, double share) => sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Count) - 1, 0, sorted.Count - 1)];
}
