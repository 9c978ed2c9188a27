using System.Diagnostics;
using System.Globalization;
using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Benchmarks;

/// <summary>The first plan of an invented room: two frames for two stages each, two imagers, a line washer, eight drawers, a finisher.</summary>
internal static class PlanBenchmark
{
    private const int Runs = 15;
    private static readonly DateTime Now = new(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);

    public static int Run(string[] args)
    {
        var at = Array.IndexOf(args, "--sheets");
        var sheets = at >= 0 ? int.Parse(args[at + 1], CultureInfo.InvariantCulture) : 400;
        var request = Room(sheets, seed: 1);
        var times = new List<double>();
        Plan plan = null!;
        for (var i = 0; i < Runs; i++)
        {
            var watch = Stopwatch.StartNew();
            plan = DispatchPlanner.Build(request);
            times.Add(watch.Elapsed.TotalMilliseconds);
        }

        var violations = PlanChecker.Violations(request, plan).Count;
        times.Sort();
        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"sheets {sheets}, stages {plan.Stages.Count}, violations {violations}, ms: least {times[0]:0.0}, median {times[Runs / 2]:0.0}, most {times[^1]:0.0} (the first run is cold)"));
        return violations == 0 ? 0 : 1;
    }

    private static PlanRequest Room(int sheets, int seed)
    {
        var random = new Random(seed);
        PlanEquipment[] equipment =
        [
            new(1, EquipmentKind.Single, 1, TimeSpan.Zero), new(2, EquipmentKind.Single, 1, TimeSpan.Zero),
            new(3, EquipmentKind.Single, 1, TimeSpan.Zero), new(4, EquipmentKind.Single, 1, TimeSpan.Zero),
            new(5, EquipmentKind.Line, 1, TimeSpan.FromMinutes(20)), new(6, EquipmentKind.Slots, 8, TimeSpan.Zero), new(7, EquipmentKind.Single, 1, TimeSpan.Zero),
        ];
        int[][] machines = [[1, 2], [3, 4], [1, 2], [5], [6], [7]];
        double[] minutes = [2, 10, 12, 20, 90, 17];
        var work = Enumerable.Range(0, sheets).Select(s => new PlanSheet(
            s, Now, Now.AddHours(4 + (random.NextDouble() * sheets / 2)), 1, random.Next(3),
            [.. machines.Select((m, i) => new PlanStage(
                (s * 10) + i,
                [.. m.Select(e => new StageOption(
                    e, TimeSpan.FromSeconds(90), TimeSpan.FromMinutes(minutes[i] * (0.8 + (0.4 * random.NextDouble()))), TimeSpan.FromSeconds(60), TimeSpan.FromMinutes(8)))],
                i == 4 ? TimeSpan.FromMinutes(30) : TimeSpan.Zero))])).ToList();
        Shift[] shifts =
        [
            new("Early", Enum.GetValues<DayOfWeek>(), new(new(6, 0), new(14, 0)), [new(new(9, 0), new(9, 30))]),
            new("Late", Enum.GetValues<DayOfWeek>(), new(new(14, 0), new(22, 0)), [new(new(18, 0), new(18, 30))]),
        ];
        return new PlanRequest(Now, equipment, work, WorkingTime.FromShifts(shifts, new HashSet<DateOnly>(), TimeZoneInfo.Utc, Now.AddDays(-14), Now.AddDays(180)));
    }
}
