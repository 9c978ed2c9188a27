using PlateTickets.Planning.Scheduling.Engine;
using PlateTickets.Planning.Scheduling.Replanning;

namespace PlateTickets.Planning.Scheduling.Lateness;

/// <summary>When an order that is not in the room yet would be finished.</summary>
/// <param name="PlannedUtc">If all takes as long as computed.</param>
/// <param name="Finish">As real times scatter: a promise that holds with so much confidence.</param>
/// <param name="Pushed">Tickets that would become late by it, the most delayed first.</param>
public sealed record Promise(DateTime PlannedUtc, FinishSpread Finish, IReadOnlyList<PushedTicket> Pushed);

/// <summary>A ticket that keeps its due time without the new order and misses it with it.</summary>
public sealed record PushedTicket(int TicketId, DateTime DueUtc, DateTime BeforeUtc, DateTime AfterUtc);

/// <summary>The two answers of the plan to a new order.</summary>
/// <param name="InTurn">As early as it can be without making another ticket late, or the late ones later as a whole.</param>
/// <param name="Rush">Before everything that is not about to start; never later than in turn.</param>
public sealed record PromiseAnswer(Promise InTurn, Promise Rush);

/// <summary>Puts sheets of a new order into a plan, without changing it, and looks when they come out.</summary>
public static class Promising
{
    /// <summary>Runs of the simulation: the 95 % promise of so many is exceeded by 3 to 9 % of orders (two standard errors).</summary>
    public const int UsualRuns = 120;

    // Places in the plan's order that are tried, besides the front.
    private const int Places = 8;

    // The new order's own name among the sets; the caller's are database ids.
    private const int Asked = int.MinValue;

    /// <param name="plan">The plan of what is in the room.</param>
    /// <param name="sheets">The sheets of the order, with ids that the plan does not know. Their due times and weights are ignored.</param>
    /// <param name="runs">Of the simulation; 1 or more.</param>
    /// <param name="seed">Of its draws.</param>
    /// <param name="cancel">Stops between runs.</param>
    /// <exception cref="PlanException">A sheet contradicts itself or the room, or the calendar ends before it is placed.</exception>
    public static PromiseAnswer Ask(LivePlan plan, IReadOnlyList<PlanSheet> sheets, int runs = UsualRuns, int seed = 1, CancellationToken cancel = default)
    {
        var (shop, inTurn, rush) = Place(plan, sheets);
        var answer = Answer(shop, plan, inTurn, runs, seed, cancel);
        return new PromiseAnswer(answer, ReferenceEquals(rush, inTurn) ? answer : Answer(shop, plan, rush, runs, seed, cancel));
    }

    /// <summary>The plans that the two answers are read from.</summary>
    internal static (Shop Shop, Draft InTurn, Draft Rush) Place(LivePlan plan, IReadOnlyList<PlanSheet> sheets)
    {
        ArgumentOutOfRangeException.ThrowIfZero(sheets.Count);
        var never = plan.Request.NowUtc.AddYears(10);
        var request = plan.Request;
        var shop = new Shop(request with
        {
            Sheets = [.. request.Sheets, .. sheets.Select(s => s with { DueUtc = never, Weight = 1 })],
            Tickets = [.. request.Tickets, new PlanTicket(Asked, never, 1, [.. sheets.Select(s => s.Id)])],
        });
        shop.KeepAs(plan.Shop);
        var places = new Attempt(shop, plan);
        var inTurn = places.Behind() ?? throw Unplaced.Because(shop, plan.Shop.Ops);
        for (var k = 0; k <= Places; k++)
        {
            var tried = places.With(places.First + (k * (places.Last - places.First) / Places));
            if (tried is not null && tried.Cost.Main <= plan.Draft.Cost.Main && places.End(tried) < places.End(inTurn) && Pushed(shop, plan, tried).Count == 0)
            {
                inTurn = tried;
            }
        }

        var rush = places.With(places.First);
        return (shop, inTurn, rush is not null && places.End(rush) < places.End(inTurn) ? rush : inTurn);
    }

    private static Promise Answer(Shop shop, LivePlan plan, Draft draft, int runs, int seed, CancellationToken cancel)
    {
        var asked = Array.IndexOf(shop.Tickets.Ids, Asked);
        var ends = LatenessSimulation.Ends(shop, draft, runs, seed, cancel, asked)[asked];
        Array.Sort(ends);
        return new Promise(shop.Instant(LatenessSimulation.PlannedEnds(shop, draft)[asked]), FinishSpread.Of(ends, shop.Instant), Pushed(shop, plan, draft));
    }

    private static List<PushedTicket> Pushed(Shop shop, LivePlan plan, Draft draft)
    {
        var (was, now) = (LatenessSimulation.PlannedEnds(plan.Shop, plan.Draft), LatenessSimulation.PlannedEnds(shop, draft));
        var before = plan.Shop.Tickets.Ids.Zip(was).Where(t => t.First is not null).ToDictionary(t => t.First!.Value, t => t.Second);
        var pushed = new List<PushedTicket>();
        for (var t = 0; t < shop.Tickets.Count; t++)
        {
            var due = shop.Tickets.Due[t];
            if (shop.Tickets.Ids[t] is { } id && before.TryGetValue(id, out var end) && end <= due && now[t] > due)
            {
                pushed.Add(new PushedTicket(id, shop.Instant(due), plan.Shop.Instant(end), shop.Instant(now[t])));
            }
        }

        return [.. pushed.OrderByDescending(p => p.AfterUtc - p.DueUtc)];
    }

    /// <summary>Builds the plan with the new sheets placed at one point of its order.</summary>
    private sealed class Attempt
    {
        private readonly Shop _shop;
        private readonly LivePlan _plan;
        private readonly Placing _placing;
        private readonly int[] _choice;
        private readonly int[] _new;

        public Attempt(Shop shop, LivePlan plan)
        {
            (_shop, _plan, _placing) = (shop, plan, new Placing(shop));
            _choice = new int[shop.Ops];
            Array.Fill(_choice, -1);
            plan.Draft.Choice.CopyTo(_choice, 0);
            _new = [.. Enumerable.Range(plan.Shop.Ops, shop.Ops - plan.Shop.Ops).Select(op => shop.JobOf[op])];
            First = plan.Draft.Leading(plan.Shop, [.. plan.Held]);
        }

        public int First { get; }

        public int Last => _plan.Draft.Order.Length;

        public int End(Draft draft) => _new.Max(j => draft.Finish[_shop.FirstOp[j + 1] - 1]);

        /// <summary>In what the plan leaves free.</summary>
        public Draft? Behind()
        {
            int[] order = [.. _plan.Draft.Order, .. _new];
            return _placing.Build(order, _choice, double.MaxValue) ? _placing.Finish(order, _choice) : null;
        }

        /// <summary>Placed there, and then everything again in the order of the starts that came out: nobody waits behind what comes later.</summary>
        public Draft? With(int at)
        {
            var order = _plan.Draft.Order;
            int[] with = [.. order[..at], .. _new, .. order[at..]];
            if (!_placing.Build(with, _choice, double.MaxValue))
            {
                return null;
            }

            var leads = new int[_shop.Jobs];
            foreach (var job in order[..First])
            {
                leads[job]++;
            }

            int[] sorted =
            [
                .. order[..First],
                .. Enumerable.Range(0, _shop.Ops).Where(op => op - _shop.FirstOp[_shop.JobOf[op]] >= leads[_shop.JobOf[op]])
                    .OrderBy(op => _placing.Table.Start[op]).ThenBy(op => op).Select(op => _shop.JobOf[op]),
            ];
            return _placing.Build(sorted, _choice, double.MaxValue) ? _placing.Finish(sorted, _choice) : null;
        }
    }
}
