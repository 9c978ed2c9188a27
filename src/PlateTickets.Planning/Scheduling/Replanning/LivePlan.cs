using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling.Replanning;

/// <summary>
/// The plan of a room at work. It goes on from the plan that people see: what is about to start stays, and the rest only
/// changes when that is worth it (<see cref="PlanRules"/>). Then it can be improved, simulated and asked what would be.
/// </summary>
public sealed class LivePlan
{
    private readonly bool[] _held;

    private LivePlan(PlanRequest request, Shop shop, Draft draft, bool[] held, PlanRules rules)
    {
        (Request, Shop, Draft, _held, Rules) = (request, shop, draft, held, rules);
        Plan = Published.Plan(shop, draft);
    }

    public PlanRequest Request { get; }

    public PlanRules Rules { get; }

    /// <summary>The plan that people should see now.</summary>
    public Plan Plan { get; private set; }

    internal Shop Shop { get; }

    internal Draft Draft { get; private set; }

    internal IReadOnlyList<bool> Held => _held;

    /// <summary>Makes a plan at once: the last one carried on, or a newly dispatched one where that is worth the change.</summary>
    /// <param name="request">The room as it is now.</param>
    /// <param name="last">The plan that people see; null for none.</param>
    /// <param name="rules">The usual ones when null.</param>
    /// <exception cref="PlanException">The request contradicts itself, or its calendar ends before everything is placed.</exception>
    public static LivePlan Start(PlanRequest request, Plan? last = null, PlanRules? rules = null)
    {
        rules ??= PlanRules.Usual;
        var shop = new Shop(request);
        var dispatched = Dispatch.Best(shop);
        var before = new LastPlan(shop, last ?? new Plan([]), rules.HoldFor);
        var placing = new Placing(shop);
        Draft? best = null;
        foreach (var draft in new[] { before.AsItWas(placing, dispatched), before.AsItWasChosen(placing, dispatched), before.InItsOrder(placing, dispatched), before.HeldFirst(placing, dispatched) })
        {
            best = draft is not null && (best is null || rules.IsWorth(draft.Cost, best.Cost)) ? draft : best;
        }

        best = best is null ? null : OnItsMachines(shop, best, (free, kept) => rules.IsWorth(free, kept));

        // The dispatcher found room before the calendar's end for everything, if need be without holding anything.
        return best is not null
            ? new LivePlan(request, shop, best, before.Held, rules)
            : new LivePlan(request, new Shop(request), dispatched, new bool[shop.Ops], rules);
    }

    /// <summary>The same plan, to be improved beside this one.</summary>
    public LivePlan Copy() => new(Request, Shop, Draft, _held, Rules);

    /// <summary>Searches for a better plan. True when one was found that is worth changing to; <see cref="Plan"/> then is that one.</summary>
    public bool Improve(ImproveOptions options, TimeProvider clock, CancellationToken cancel = default)
    {
        var better = PlanImprover.Improve(Shop, OnAnyMachine(), options, clock, cancel, _held);
        if (!Rules.IsWorth(better.Cost, Draft.Cost))
        {
            return false;
        }

        Draft = OnItsMachines(Shop, better, (free, kept) => free < kept);
        Plan = Published.Plan(Shop, Draft);
        return true;
    }

    // A stage that goes to whichever machine finishes first would change it at every small delay.
    private static Draft OnItsMachines(Shop shop, Draft draft, Func<PlanCost, PlanCost, bool> isWorth)
    {
        int[] choice = [.. draft.Way.Select((way, op) => way - shop.FirstWay[op])];
        var placing = new Placing(shop);
        return choice.SequenceEqual(draft.Choice) || !placing.Build(draft.Order, choice, double.MaxValue) || isWorth(draft.Cost, placing.Cost)
            ? draft
            : placing.Finish(draft.Order, choice);
    }

    // A search finds better plans when the machines follow from the order.
    private Draft OnAnyMachine()
    {
        int[] choice = [.. Draft.Choice.Select((c, op) => _held[op] ? c : -1)];
        var placing = new Placing(Shop);
        return placing.Build(Draft.Order, choice, double.MaxValue) && placing.Cost <= Draft.Cost ? placing.Finish(Draft.Order, choice) : Draft;
    }
}
