using System.Diagnostics;
using Google.OrTools.Sat;
using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Benchmarks.Ovens;

/// <summary>What was planned, what the planner thinks it costs, and a value no plan can be below.</summary>
internal sealed record OvenResult(IReadOnlyList<OvenBatch> Batches, long Value, long Bound);

/// <summary>Annealing finds the plan; the constraint model says how good it is, and mends what annealing has left.</summary>
internal sealed class OvenPlanner(OvenFile oven, TimeSpan within, int workers, int seed)
{
    // Above this size the whole model says less than the one without times.
    private const int WholeModelJobs = 60;

    // Plans are found elsewhere, so the solver's workers may spend themselves on the bound.
    private const string WholeModel = "subsolvers:'core' subsolvers:'objective_lb_search'";
    private const string WithoutTimes = "subsolvers:'objective_lb_search_max_lp' subsolvers:'reduced_costs'";

    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private IReadOnlyList<OvenBatch> _best = [];
    private long _value = long.MaxValue;
    private long _bound;

    public OvenResult Plan(IReadOnlyList<OvenBatch> first)
    {
        var whole = oven.Jobs.Length <= WholeModelJobs;
        Anneal(first, within * (whole ? 0.1 : 0.7));
        Solve(timed: false, whole ? within * 0.1 : within - _watch.Elapsed);
        if (whole && _bound < _value)
        {
            Solve(timed: true, within * 0.6);
        }

        if (_bound < _value)
        {
            Anneal(_best, within - _watch.Elapsed);
        }

        return new OvenResult(_best, _value, _bound);
    }

    private void Anneal(IReadOnlyList<OvenBatch> from, TimeSpan time)
    {
        if (time <= TimeSpan.Zero)
        {
            return;
        }

        var searches = Enumerable.Range(0, workers).Select(w => new OvenAnnealing(oven, from, (seed * 1000) + w)).ToList();
        Parallel.ForEach(searches, s => s.Cool(time * 0.6, 0.5));
        for (var again = 0; again < 4; again++)
        {
            var best = searches.MinBy(s => s.BestTotal)!.Best;
            Parallel.ForEach(searches, s => s.Reheat(best, time * 0.1, 0.04));
        }

        if (searches.MinBy(s => s.BestTotal) is { } found && found.BestTotal < _value)
        {
            (_best, _value) = (found.Best, found.BestTotal);
        }
    }

    private void Solve(bool timed, TimeSpan time)
    {
        var watch = Stopwatch.StartNew();
        var model = new OvenModel(oven, timed);
        var planned = OvenChecker.Violations(oven, _best).Count == 0;
        if (timed)
        {
            model.AtLeast(_bound);
            if (planned)
            {
                model.Hint(_best);
            }
        }

        using var solver = new CpSolver();
        var left = TimeSpan.FromSeconds(Math.Max(0.1, (time - watch.Elapsed).TotalSeconds));
        solver.StringParameters = CpParameters.For(left, workers, seed) + " " + (timed ? WholeModel : WithoutTimes);
        var status = solver.Solve(model.Model);
        if (status is CpSolverStatus.Infeasible or CpSolverStatus.ModelInvalid)
        {
            throw new FormatException($"{oven.Name}: {(planned ? "the model does not allow the plan that was found" : "no plan keeps all rules")}.");
        }

        _bound = Math.Max(_bound, (long)Math.Ceiling(solver.BestObjectiveBound - 1e-6));
        if (timed && status is (CpSolverStatus.Optimal or CpSolverStatus.Feasible) && solver.ObjectiveValue < _value)
        {
            (_best, _value) = (model.Read(solver.BooleanValue, solver.Value), (long)Math.Round(solver.ObjectiveValue));
        }
    }
}
