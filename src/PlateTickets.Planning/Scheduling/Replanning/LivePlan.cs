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
        var dispatched = new Dispatch(shop).Run();
        if (last is null || shop.Ops == 0)
        {
            return new LivePlan(request, shop, dispatched, new bool[shop.Ops], rules);
        }

        var before = new LastPlan(shop, last, rules.HoldFor);
        var placing = new Placing(shop);
        var fresh = before.Held.Contains(true) ? before.HeldFirst(placing, dispatched) : dispatched;
        var carried = before.CarriedOn(placing, dispatched);
        var draft = carried is null || (fresh is not null && rules.IsWorth(fresh.Cost, carried.Cost)) ? fresh ?? dispatched : carried;
        return new LivePlan(request, shop, draft, before.Held, rules);
    }

    /// <summary>The same plan, to be improved beside this one.</summary>
    public LivePlan Copy() => new(Request, Shop, Draft, _held, Rules);

    /// <summary>Searches for a better plan. True when one was found that is worth changing to; <see cref="Plan"/> then is that one.</summary>
    public bool Improve(ImproveOptions options, TimeProvider clock, CancellationToken cancel = default)
    {
        var better = PlanImprover.Improve(Shop, Draft, options, clock, cancel, _held);
        if (!Rules.IsWorth(better.Cost, Draft.Cost))
        {
            return false;
        }

        Draft = better;
        Plan = Published.Plan(Shop, better);
        return true;
    }
}
