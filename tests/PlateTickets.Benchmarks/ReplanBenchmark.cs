using System.Diagnostics;
using System.Globalization;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Planning.Scheduling.Replanning;

namespace PlateTickets.Benchmarks;

/// <summary>A large room at work: a new plan after each thing that happens.</summary>
internal static class ReplanBenchmark
{
    private static readonly TimeSpan Soon = PlanRules.Usual.HoldFor;
    private static readonly TimeSpan Moment = TimeSpan.FromMinutes(1);

    public static int Run(string[] args)
    {
        var options = Options.Of(args, "--sheets", "--events", "--seed");
        var (sheets, events, seed) = ((int)options.Number("--sheets", 400), (int)options.Number("--events", 200), (int)options.Number("--seed", 1));
        var request = InventedRoom.WithSpreads(InventedRoom.Of(sheets, seed), [.. Enumerable.Repeat(new TimeSpread(0.02, 0.15), InventedRoom.Stations)]);
        var room = new RoomAtWork(request, seed);
        var live = LivePlan.Start(room.Request);
        LivePlan.Start(room.Request, live.Plan);

        var times = new List<double>();
        var (wrong, soon, machine, down, sooner, later) = (0, 0, 0, 0, 0, 0);
        var (others, moved) = (new int[2], new int[2]);
        for (var i = 0; i < events; i++)
        {
            var last = live.Plan;
            room.Next(last);
            var watch = Stopwatch.StartNew();
            live = LivePlan.Start(room.Request, last);
            times.Add(watch.Elapsed.TotalMilliseconds);
            wrong += PlanChecker.Violations(room.Request, live.Plan).Count;

            var now = live.Plan.Stages.ToDictionary(s => s.StageId);
            var waiting = room.Request.Sheets.SelectMany(s => s.Stages).Where(t => t.Running is null).Select(t => t.Id).ToHashSet();
            foreach (var was in last.Stages.Where(s => waiting.Contains(s.StageId) && s.StartUtc > room.Request.NowUtc + Soon))
            {
                others[room.Surprised ? 1 : 0]++;
                moved[room.Surprised ? 1 : 0] += (now[was.StageId].StartUtc - was.StartUtc).Duration() > Soon ? 1 : 0;
            }

            foreach (var was in last.Stages.Where(s => waiting.Contains(s.StageId) && s.StartUtc <= room.Request.NowUtc + Soon))
            {
                var by = now[was.StageId].StartUtc - (was.StartUtc > room.Request.NowUtc ? was.StartUtc : room.Request.NowUtc);
                var isDown = room.Request.Downtime.Any(d => d.EquipmentId == was.EquipmentId && d.FromUtc < was.FinishUtc && d.ToUtc > room.Request.NowUtc);
                soon++;
                machine += !isDown && now[was.StageId].EquipmentId != was.EquipmentId ? 1 : 0;
                down += isDown && (now[was.StageId].EquipmentId != was.EquipmentId || by.Duration() > Moment) ? 1 : 0;
                sooner += !isDown && by < -Moment ? 1 : 0;
                later += !isDown && by > Moment ? 1 : 0;
            }
        }

        times.Sort();
        Say($"sheets {sheets}, stages {request.Sheets.Sum(s => s.Stages.Count)}, seed {seed}; {room.Told}");
        Say($"new plan after {events} events, ms: median {At(times, 0.5):0}, 95 % {At(times, 0.95):0}, 99 % {At(times, 0.99):0}, most {times[^1]:0}; violations {wrong}");
        Say($"stages about to start {soon}: other machine {machine}, sooner {sooner}, later {later} by more than a minute; let go by a machine that went down {down}");
        Say($"of the later stages moved by more than ten minutes: {Percent(moved[0], others[0]):0.0} % when one began or was over, {Percent(moved[1], others[1]):0.0} % when an order came or a machine went down");
        var asked = InventedRoom.Order(1_000_000, 1_000_000, request.NowUtc, 2, new Random(5)).Sheets;
        asked = [.. asked, .. InventedRoom.Order(1_000_001, 1_000_010, request.NowUtc, 2, new Random(6)).Sheets];
        Say($"promise for 2 sheets {Median(() => Promising.Ask(live, [.. asked.Take(2)])):0} ms, lateness of all tickets {Median(() => LatenessSimulation.Of(live)):0} ms (median of 5)");
        return wrong == 0 ? 0 : 1;
    }

    private static double Percent(int some, int all) => 100.0 * some / Math.Max(1, all);

    private static double Median<T>(Func<T> ask)
    {
        var times = new List<double>();
        for (var i = 0; i < 5; i++)
        {
            var watch = Stopwatch.StartNew();
            ask();
            times.Add(watch.Elapsed.TotalMilliseconds);
        }

        times.Sort();
        return times[2];
    }

    private static double At(List<double> sorted, double share) => sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Count) - 1, 0, sorted.Count - 1)];

    private static void Say(FormattableString sentence) => Console.WriteLine(sentence.ToString(CultureInfo.InvariantCulture));
}
