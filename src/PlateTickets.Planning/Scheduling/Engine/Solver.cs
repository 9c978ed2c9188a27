using Google.OrTools.Sat;

namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>The thread that hands the shop to the constraint solver; a shop too large for it is searched from another seed instead.</summary>
internal sealed class Solver(Shop shop, Best best, bool[] held, ImproveOptions options, Func<double> spent, Func<bool> over)
{
    /// <summary>More operations than this are not stated and solved in the time that people wait for a plan.</summary>
    public const int MostOps = 700;

    // In a flow shop that is larger, two searches find more than one of them and the solver.
    private const int MostOfFlow = 300;

    private const int SmallOps = 300;

    /// <summary>A room in which the solver finds more on both cores than beside a search, once it has a good plan to begin from.</summary>
    public static bool IsSmallRoom(Shop shop) => !shop.Makespan && shop.Ops <= SmallOps;

    public void Run()
    {
        if (shop.Ops > MostOps || (shop.Ops > MostOfFlow && FlowShop.Of(shop, held) is not null))
        {
            new Searcher(shop, best, held, options.Seed + 1, spent, over).Run();
            return;
        }

        var horizon = Horizon();
        var model = new CpShop(shop, horizon);
        model.Hold(best.Now, held);
        // Short turns at first: each begins from the best plan of both threads. In a small room one long turn finds what short
        // ones do not, because the solver keeps what it has learned.
        for (var turn = 0; !over() && !best.Proved; turn++)
        {
            model.Hint(best.Now);
            var left = (1 - spent()) * options.Within.TotalSeconds;
            Solve(model, TimeSpan.FromSeconds(Math.Min(left, turn > 0 && IsSmallRoom(shop) ? left : 3 + (5 * turn))), turn);
        }
    }

    // No optimum is later than a plan that is known, as long as nothing is gained by waiting.
    private int Horizon()
    {
        var end = best.Now.Finish.Max();
        return shop.Makespan ? end : end + Math.Max(86_400, end - shop.Now);
    }

    private void Solve(CpShop model, TimeSpan within, int turn)
    {
        if (within <= TimeSpan.Zero)
        {
            return;
        }

        using var solver = new CpSolver();
        solver.StringParameters = CpParameters.For(within, options.Workers, options.Seed + turn);
        using var watch = new CpWatch(shop, model, best, over);
        var status = solver.Solve(model.Model, watch);
        if (status is CpSolverStatus.Optimal or CpSolverStatus.Feasible)
        {
            watch.Offer(solver.Value, solver.BooleanValue);
            best.Raise((solver.BestObjectiveBound / model.Scale) - (shop.Makespan ? shop.Now : 0));
        }
    }
}
