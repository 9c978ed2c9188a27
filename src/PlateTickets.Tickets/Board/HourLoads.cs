using System.Collections.Immutable;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Board;

/// <summary>Adds up, hour by hour, how much of the machines' time the plan takes.</summary>
internal static class HourLoads
{
    /// <summary>How many hours the board looks ahead, the one at work included.</summary>
    public const int Hours = 8;

    private const int Step = 5;

    /// <summary>The beginnings of the hours: now, then each full hour of the site's clock.</summary>
    public static ImmutableArray<DateTime> Starts(DateTime nowUtc, TimeZoneInfo zone)
    {
        var local = SiteClock.Local(nowUtc, zone);
        // Hours are counted on from the last full one by instants: a change of the clocks neither drops nor doubles one.
        var first = nowUtc.AddTicks(-(local.Ticks % TimeSpan.TicksPerHour));
        return [.. Enumerable.Range(0, Hours + 1).Select(h => h == 0 ? nowUtc : first.AddHours(h))];
    }

    /// <summary>One row for the machines that can stand in for each other: those that share a station and, for a washer, its process.</summary>
    public static IEnumerable<LoadRow> Of(Room room, IEnumerable<BoardSheet> open, ImmutableArray<DateTime> starts)
    {
        var hours = starts.Length - 1;
        var taken = room.Equipment.ToDictionary(e => e.Id, _ => new double[hours]);
        foreach (var sheet in open.Where(s => s.State != Sheets.SheetState.OnHold))
        {
            foreach (var pass in sheet.Passes)
            {
                if (pass.State != Sheets.StageState.Done && pass is { EquipmentId: { } id, StartUtc: { } start, FreeUtc: { } free }
                    && free > starts[0] && start < starts[^1] && taken.TryGetValue(id, out var hoursOf))
                {
                    Add(hoursOf, starts, start, free);
                }
            }
        }

        var working = room.WorkingBetween(starts[0], starts[^1]).Intervals;
        foreach (var pool in Pools(room))
        {
            yield return RowOf(room, pool, starts, working, taken);
        }
    }

    private static LoadRow RowOf(Room room, List<Equipment> pool, ImmutableArray<DateTime> starts, IReadOnlyList<WorkingInterval> working, Dictionary<int, double[]> taken)
    {
        var cells = ImmutableArray.CreateBuilder<LoadCell>(starts.Length - 1);
        for (var h = 0; h + 1 < starts.Length; h++)
        {
            var (from, to) = (starts[h], starts[h + 1]);
            var capacity = pool.Sum(e => e.Slots * Math.Max(0, (to - from).TotalMinutes - Down(room, e.Id, from, to)));
            var load = pool.Sum(e => taken[e.Id][h]);
            var closed = !working.Any(w => w.StartUtc < to && w.EndUtc > from);
            cells.Add(new LoadCell(
                capacity < 0.5 || (closed && load < 0.5) ? null : (int)Math.Round(Math.Min(1, load / capacity) * (100 / Step), MidpointRounding.AwayFromZero) * Step, closed));
        }

        var stations = pool.SelectMany(e => e.Serves).Distinct().Order().ToList();
        var title = string.Join(", ", stations.Select((s, i) => i == 0 ? s.Title() : s.Title().ToLowerInvariant()));
        var machines = string.Join(", ", pool.Select(e => e.Slots > 1 ? $"{e.Name}, {e.Slots} drawers" : e.Name));
        return new LoadRow(string.Join('-', pool.Select(e => e.Id)), title, machines, cells.MoveToImmutable());
    }

    private static double Down(Room room, int machine, DateTime from, DateTime to)
    {
        var (sum, end) = (0.0, from);
        foreach (var down in room.Downtimes.Where(d => d.EquipmentId == machine && d.FromUtc < to && d.ToUtc > from).OrderBy(d => d.FromUtc))
        {
            var (begin, stop) = (down.FromUtc > end ? down.FromUtc : end, down.ToUtc < to ? down.ToUtc : to);
            if (stop > begin)
            {
                (sum, end) = (sum + (stop - begin).TotalMinutes, stop);
            }
        }

        return sum;
    }

    private static void Add(double[] taken, ImmutableArray<DateTime> starts, DateTime from, DateTime to)
    {
        for (var h = 0; h < taken.Length; h++)
        {
            var begin = from > starts[h] ? from : starts[h];
            var end = to < starts[h + 1] ? to : starts[h + 1];
            taken[h] += end > begin ? (end - begin).TotalMinutes : 0;
        }
    }

    private static List<List<Equipment>> Pools(Room room)
    {
        var pools = new List<List<Equipment>>();
        foreach (var machine in room.Equipment.Where(e => e.Serves.Count > 0).OrderBy(e => e.Serves.Min()).ThenBy(e => e.Id))
        {
            var joined = pools.Where(p => p.Any(e => e.Process == machine.Process && e.Serves.Intersect(machine.Serves).Any())).ToList();
            pools.RemoveAll(joined.Contains);
            pools.Add([.. joined.SelectMany(p => p), machine]);
        }

        return [.. pools.OrderBy(p => p.Min(e => e.Serves.Min())).ThenBy(p => p[0].Id)];
    }
}
