using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling;

/// <summary>How a plan is improved.</summary>
/// <param name="Within">For how long.</param>
/// <param name="Seed">Of the random moves.</param>
/// <param name="Workers">Threads: the first searches locally, the others solve.</param>
public sealed record ImproveOptions(TimeSpan Within, int Seed = 1, int Workers = 2);

/// <summary>
/// Makes a plan better for as long as it is given. It begins with the dispatcher's plan, or with the last one when that is
/// better, and never returns a worse one. One thread searches locally; another hands the whole shop, or a part of it with
/// the rest held, to a constraint solver (CP-SAT) and both go on from whatever is best.
/// </summary>
public static class PlanImprover
{
    // Of the time; found by trying (30 sheets, 30 s: 80 weighted minutes instead of 98).
    private const double SearchOfSmallRoom = 0.2;
    private static readonly TimeSpan LeastSearch = TimeSpan.FromSeconds(3);

    /// <exception cref="PlanException">The request contradicts itself, or its calendar ends before everything is placed.</exception>
    public static Plan Improve(PlanRequest request, ImproveOptions options, TimeProvider clock, CancellationToken cancel = default)
    {
        var shop = new Shop(request);
        return Published.Plan(shop, Improve(shop, Dispatch.Best(shop), options, clock, cancel));
    }

    /// <param name="held">Operations that keep machine and start; they lead the order of <paramref name="first"/>. Null for none.</param>
    internal static Draft Improve(
        Shop shop, Draft first, ImproveOptions options, TimeProvider clock, CancellationToken cancel = default, bool[]? held = null)
    {
        held ??= new bool[shop.Ops];
        var began = clock.GetTimestamp();
        var shared = new Best(first, held);
        // Once the tardiness is settled the search goes on for earlier finishes; a makespan is all there is.
        bool Over() => cancel.IsCancellationRequested || (shop.Makespan && shared.Proved) || clock.GetElapsedTime(began) >= options.Within;
        if (shop.Ops == 0)
        {
            return first;
        }

        var spent = () => clock.GetElapsedTime(began) / options.Within;
        var other = options.Workers < 2 ? Task.CompletedTask : Task.Factory.StartNew(
            () => new Solver(shop, shared, held, options, spent, Over).Run(), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        var until = options.Workers >= 2 && Solver.IsSmallRoom(shop) ? Math.Max(SearchOfSmallRoom, LeastSearch / options.Within) : 1;
        new Searcher(shop, shared, held, options.Seed, spent, Over) { TriesRules = true, Until = until }.Run();
        other.GetAwaiter().GetResult();
        return shared.Now;
    }
}
