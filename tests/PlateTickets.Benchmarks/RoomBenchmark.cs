using System.Diagnostics;
using System.Globalization;
using Google.OrTools.Sat;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Benchmarks;

/// <summary>Our first plan, our improved plan and the constraint solver alone, on the same invented room in the same time.</summary>
internal static class RoomBenchmark
{
    public static int Run(string[] args)
    {
        var options = Options.Of(args, "--sheets", "--seconds", "--seed");
        var (sheets, seed, within) = ((int)options.Number("--sheets", 60), (int)options.Number("--seed", 1), TimeSpan.FromSeconds(options.Number("--seconds", 30)));
        var request = InventedRoom.Of(sheets, seed);
        // A server that plans has planned before: compiled by another room of the same size.
        var other = InventedRoom.Of(sheets, seed + 1);
        for (var i = 0; i < 3; i++)
        {
            DispatchPlanner.Build(other);
        }

        var watch = Stopwatch.StartNew();
        var first = DispatchPlanner.Build(request);
        var firstMs = watch.Elapsed.TotalMilliseconds;
        var improved = PlanImprover.Improve(request, new ImproveOptions(within, seed), TimeProvider.System);
        var wrong = PlanChecker.Violations(request, first).Count + PlanChecker.Violations(request, improved).Count;
        var (value, bound, proved) = Alone(new Shop(request), within, seed);

        Print("sheets", sheets, $"{request.Sheets.Sum(s => s.Stages.Count)} stages, {request.Tickets.Count} tickets, seed {seed}, {within.TotalSeconds:0} s, violations {wrong}");
        Print("first plan", first.Cost.Main / 60, $"min weighted tardiness, made in {firstMs:0.0} ms");
        Print("improved", improved.Cost.Main / 60, "min weighted tardiness");
        Print("CP-SAT alone", value / 60, $"min weighted tardiness, bound {bound / 60:0.0}{(proved ? ", proved" : "")}, 2 workers");
        Console.WriteLine(value is double.PositiveInfinity ? "ratio: CP-SAT found no plan" : string.Create(
            CultureInfo.InvariantCulture, $"ratio improved / CP-SAT {(value == 0 ? improved.Cost.Main == 0 ? 1 : double.PositiveInfinity : improved.Cost.Main / value):0.0000}"));
        return wrong == 0 ? 0 : 1;
    }

    // The solver's own value of its own plan, with the time it takes to state the model counted.
    private static (double Value, double Bound, bool Proved) Alone(Shop shop, TimeSpan within, int seed)
    {
        var watch = Stopwatch.StartNew();
        var horizon = new Dispatch(shop).Run().Finish.Max() + (3 * 86_400);
        var model = new CpShop(shop, horizon);
        using var solver = new CpSolver();
        solver.StringParameters = CpParameters.For(TimeSpan.FromSeconds(Math.Max(0.1, (within - watch.Elapsed).TotalSeconds)), 2, seed);
        var status = solver.Solve(model.Model);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? (solver.ObjectiveValue / model.Scale, solver.BestObjectiveBound / model.Scale, status == CpSolverStatus.Optimal)
            : (double.PositiveInfinity, solver.BestObjectiveBound / model.Scale, false);
    }

    private static void Print(string what, double value, FormattableString rest) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-13} {value,12:0.0} ") + rest.ToString(CultureInfo.InvariantCulture));

    private static void Print(string what, double value, string rest) => Print(what, value, (FormattableString)$"{rest}");
}
