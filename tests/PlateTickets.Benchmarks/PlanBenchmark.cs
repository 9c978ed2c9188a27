using System.Diagnostics;
using System.Globalization;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;

namespace PlateTickets.Benchmarks;

/// <summary>How long the first plan of an invented room takes.</summary>
internal static class PlanBenchmark
{
    private const int Runs = 15;
    public static int Run(string[] args)
    {
        var at = Array.IndexOf(args, "--sheets");
        var sheets = at >= 0 ? int.Parse(args[at + 1], CultureInfo.InvariantCulture) : 400;
        var request = InventedRoom.Of(sheets, seed: 1);
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
}
