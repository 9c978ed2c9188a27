using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Demo;

namespace PlateTickets.Benchmarks.Rooms;

/// <summary>An audit trail of many entries: how fast it grows, is verified, searched and exported.</summary>
internal static class AuditBenchmark
{
    private const int AtOnce = 5000;
    private const int PageSize = 50;
    private static readonly string[] People = ["Ada", "Bruno", "Chika", "Dario", "Demo lead"];
    private static readonly string[] Records = ["Order", "Ticket", "Sheet", "RecipeRevision", "StockLot", "Account"];

    public static async Task<int> RunAsync(string[] args)
    {
        var wanted = (int)Options.Of(args, "--entries").Number("--entries", 2_000_000);
        await using var room = await BenchRoom.CreateAsync(RoomStartKind.Empty);
        var watch = Stopwatch.StartNew();
        await WriteAsync(room, wanted);
        Print("written", watch, $"{wanted / watch.Elapsed.TotalSeconds:0} entries/s, {new FileInfo(room.File).Length / 1e6:0} MB");

        await using (var db = room.CreateDbContext())
        {
            await db.Database.OpenConnectionAsync();
            watch.Restart();
            var verdict = await new AuditCheck(db.Database.GetDbConnection()).WalkAsync();
            Print("verified", watch, $"{verdict.Figures.Count / watch.Elapsed.TotalSeconds:0} entries/s, {(verdict.Whole ? "whole" : verdict.Wrong)}, {GC.GetTotalMemory(true) / 1e6:0} MB managed");
        }

        var queries = new AuditQueries(room);
        foreach (var (name, filter) in Questions(room.NowUtc, wanted))
        {
            // Twice: the first also compiles the query.
            await queries.PageAsync(filter, null, PageSize);
            watch.Restart();
            var page = await queries.PageAsync(filter, null, PageSize);
            Print(name, watch, $"{page.Entries.Count} found{(page.OlderThan is null ? ", nothing older" : "")}");
        }

        watch.Restart();
        await using var nowhere = new StreamWriter(Stream.Null);
        await AuditCsv.WriteAsync(nowhere, queries.AllAsync(new AuditFilter()));
        Print("exported", watch, $"{wanted / watch.Elapsed.TotalSeconds:0} entries/s, {System.Diagnostics.Process.GetCurrentProcess().PeakWorkingSet64 / 1e6:0} MB peak");
        return 0;
    }

    private static IEnumerable<(string Name, AuditFilter Filter)> Questions(DateTime now, int wanted) =>
    [
        ("newest", new AuditFilter()),
        ("who", new AuditFilter(By: "Ada")),
        ("who, unknown", new AuditFilter(By: "Nobody")),
        ("key", new AuditFilter(Keys: ["T0000017"])),
        ("who and key", new AuditFilter(By: "Ada", Keys: ["T0000017"])),
        ("record", new AuditFilter(Record: "StockLot")),
        ("an old day", new AuditFilter(FromUtc: now.AddMinutes(-wanted * 0.9), ToUtc: now.AddMinutes(-wanted * 0.9).AddDays(1))),
        ("text, frequent", new AuditFilter(Text: "job 17")),
        ("text, nowhere", new AuditFilter(Text: "no such words")),
        ("field, nowhere", new AuditFilter(Fields: ["Nothing"])),
        ("who and text", new AuditFilter(By: "Ada", Text: "no such words")),
    ];

    private static async Task WriteAsync(BenchRoom room, int wanted)
    {
        for (var done = 0; done < wanted; done += AtOnce)
        {
            await using var db = room.CreateDbContext();
            for (var i = done; i < Math.Min(wanted, done + AtOnce); i++)
            {
                db.ActingAs = People[i / AtOnce % People.Length];
                db.Note(Records[i % Records.Length], $"T{i % 40_000:0000000}", "changed the title", $"From job {i % 1000} to something of the usual length of a title");
            }

            await db.SaveChangesAsync();
            room.NowUtc = room.NowUtc.AddMinutes(AtOnce);
        }
    }

    private static void Print(string what, Stopwatch watch, FormattableString rest) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-15} {watch.Elapsed.TotalMilliseconds,10:0.0} ms  ") + rest.ToString(CultureInfo.InvariantCulture));
}
