using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Demo;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Benchmarks.Rooms;

/// <summary>Every open sheet of the demo room goes through all its stages: the time of a scan until it is on disk.</summary>
internal static class ScanBenchmark
{
    public static async Task<int> RunAsync(string[] args)
    {
        var rooms = (int)Options.Of(args, "--rooms").Number("--rooms", 3);
        var times = new List<double>();
        // One more than asked for: the first compiles.
        for (var i = 0; i <= rooms; i++)
        {
            await using var room = await BenchRoom.CreateAsync(RoomStartKind.Demo);
            var its = await ScanAllAsync(room);
            times.AddRange(i == 0 ? [] : its);
        }

        times.Sort();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{times.Count} scans: median {times[times.Count / 2]:0.00} ms, mean {times.Average():0.00} ms, 95 % within {times[times.Count * 95 / 100]:0.00} ms"));
        return 0;
    }

    private static async Task<List<double>> ScanAllAsync(BenchRoom room)
    {
        using var catalog = new RoomCatalog(room, room);
        var desk = new ScanDesk(room, catalog, new RoomEvents(), room);
        List<(string Number, List<string> Machines)> sheets;
        await using (var db = room.CreateDbContext())
        {
            sheets = [.. (await db.Sheets.AsNoTracking().Where(s => s.State == SheetState.Waiting || s.State == SheetState.Running).Include(s => s.Stages).ThenInclude(t => t.Equipment).ToListAsync())
                // What runs goes on first: it holds its machine.
                .OrderByDescending(s => s.State)
                .Select(s => (s.Number, s.Stages.Where(t => t.State != StageState.Done).OrderBy(t => t.Station)
                    .SelectMany(t => Enumerable.Repeat(t.Equipment!.Slug, t.State == StageState.Running ? 1 : 2)).ToList()))];
        }

        var times = new List<double>();
        foreach (var (number, machines) in sheets)
        {
            foreach (var machine in machines)
            {
                room.NowUtc = room.NowUtc.AddHours(3);
                var watch = Stopwatch.StartNew();
                var reply = await desk.RecordAsync(new ScanRequest(Guid.NewGuid(), number, machine, ScanAction.Next, "bench", Confirmed: true));
                times.Add(watch.Elapsed.TotalMilliseconds);
                if (!reply.Accepted)
                {
                    break;
                }
            }
        }

        return times;
    }
}
