using PlateTickets.Planning.Scheduling.Engine;
using PlateTickets.Planning.Scheduling.Replanning;

namespace PlateTickets.Planning.Scheduling.Lateness;

/// <summary>
/// Plays a plan many times with real times drawn from the spreads of its stages. In each run the operations are placed in the
/// plan's order, as a room would that keeps to its lists and takes what fits into a gap; a sheet that comes later than it was
/// planned to begin lets go first what was planned until then. Machines that break, remakes and people who do something else
/// are not drawn.
/// </summary>
public static class LatenessSimulation
{
    /// <summary>Runs that are usual: a chance of 20 % is then known to about 3 percentage points (standard error).</summary>
    public const int UsualRuns = 200;

    /// <summary>The outlook of each of the request's sets, by the caller's id. Sets without an id of their own (single sheets) are left out.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="runs">How often it is played; 1 or more.</param>
    /// <param name="seed">Of the draws.</param>
    /// <param name="workers">Threads; -1 for as many as the machine has.</param>
    /// <param name="cancel">Stops between runs.</param>
    public static IReadOnlyList<TicketOutlook> Of(LivePlan plan, int runs = UsualRuns, int seed = 1, int workers = -1, CancellationToken cancel = default)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(runs, 1);
        var (shop, tickets) = (plan.Shop, plan.Shop.Tickets);
        var planned = PlannedEnds(shop, plan.Draft);
        var ends = Ends(shop, plan.Draft, runs, seed, cancel, workers: workers);
        var outlooks = new List<TicketOutlook>();
        for (var t = 0; t < tickets.Count; t++)
        {
            if (tickets.Ids[t] is not { } id)
            {
                continue;
            }

            Array.Sort(ends[t]);
            // One run more of each kind: nothing is certain after so many runs.
            var late = ends[t].Count(e => e > tickets.Due[t]);
            outlooks.Add(new TicketOutlook(id, shop.Instant(planned[t]), (late + 0.5) / (runs + 1), FinishSpread.Of(ends[t], shop.Instant)));
        }

        return outlooks;
    }

    internal static int[] PlannedEnds(Shop shop, Draft draft) =>
        [.. shop.Tickets.JobsOf.Select(jobs => jobs.Max(j => draft.Finish[shop.FirstOp[j + 1] - 1]))];

    /// <summary>The finish of each set in each run; with <paramref name="only"/> that of this one alone.</summary>
    internal static int[][] Ends(Shop shop, Draft draft, int runs, int seed, CancellationToken cancel, int only = -1, int workers = -1)
    {
        var ends = shop.Tickets.JobsOf.Select(_ => new int[runs]).ToArray();
        var played = new PlayedOrder(shop, draft);
        Runs.ForEach(runs, workers, run =>
        {
            var placing = new Placing(Scatter.Draw(shop, seed, run));
            played.Build(placing, only);
            for (var t = 0; t < ends.Length; t++)
            {
                // Beyond the calendar's end nobody knows when, only that it is late.
                ends[t][run] = placing.IsWhole(t) ? placing.TicketEnd(t) : 1_000_000_000;
            }
        }, cancel);
        return ends;
    }
}
