namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>
/// Searches for the least makespan of a flow shop in two parts, both accepting worse plans as in simulated annealing. First over one
/// ranking of the jobs, which decides who enters, while every later stage takes them as they come. Then over the order at every stage:
/// a plan is pushed to its end and back to its begin in turns, each time placing at every stage first what was last, with one
/// small change each time (K. Y. Li, R. J. Willis, An iterative scheduling technique for resource-constrained project scheduling,
/// European J. Operational Research 56, 1992, 370-379; from memory). Stage by stage that is many times faster than operation by operation.
/// </summary>
internal sealed class FlowSearch
{
    // Of the mean duration: what a worse plan may cost at the begin of a leg, and at its end.
    private const double Hot = 0.15;
    private const double Cold = 0.01;

    // Many plans end at the same time; of those the one is better whose last stage as a whole is done sooner.
    private const double Others = 0.4;

    // A change moves an operation by so many mean durations at most, a whole job by three times as many.
    private const double Reach = 2;

    private const int RoundsAtOnce = 64;

    private readonly FlowShop _shop;
    private readonly Random _random;
    private readonly FlowPlan _best;

    private FlowSearch(FlowShop shop, int seed)
    {
        (_shop, _random) = (shop, new Random(seed));
        var ranking = Enumerable.Range(0, shop.Jobs).ToArray();
        _random.Shuffle(ranking);
        _best = new FlowPlan(shop);
        _best.Enter(ranking);
    }

    /// <summary>Of the best plan so far.</summary>
    public int Makespan => _best.Makespan;

    /// <summary>The jobs of the best plan's operations, by their starts; placed in it they end no later than there.</summary>
    public int[] Order() => _best.Order();

    /// <returns>Null for a shop that is no plain flow shop.</returns>
    public static FlowSearch? Of(Shop shop, bool[] held, int seed) => FlowShop.Of(shop, held) is { } flow ? new FlowSearch(flow, seed) : null;

    /// <summary>One leg from hot to cold over rankings.</summary>
    /// <param name="backwards">The ranking is of those who leave last: the shop is read from its last stage on.</param>
    /// <param name="spent">How much of the leg is over: it ends at 1.</param>
    public void Rank(bool backwards, Func<double> spent)
    {
        var plan = new FlowPlan(_shop) { Backwards = backwards };
        var now = Enumerable.Range(0, _shop.Jobs).ToArray();
        _random.Shuffle(now);
        int[] next = [.. now];
        plan.Enter(now);
        var score = plan.Score(Others);
        for (var (round, heat) = (0L, Hot); Goes(round, spent, ref heat); round++)
        {
            RankMove.Try(now, next, _random);
            plan.Enter(next);
            if (plan.Score(Others) <= Limit(score, heat))
            {
                (now, next, score) = (next, now, plan.Score(Others));
                Keep(plan);
            }
        }
    }

    /// <summary>One leg from hot to cold over plans that are pushed to and fro, on from the best one.</summary>
    /// <inheritdoc cref="Rank"/>
    public void Push(Func<double> spent)
    {
        var (now, next) = (new FlowPlan(_shop), new FlowPlan(_shop));
        now.CopyFrom(_best);
        now.Push();
        var score = now.Score(Others);
        for (var (round, heat) = (0L, Hot); Goes(round, spent, ref heat); round++)
        {
            next.CopyFrom(now);
            Change(next);
            next.Push();
            if (next.Score(Others) <= Limit(score, heat))
            {
                (now, next, score) = (next, now, next.Score(Others));
                Keep(now);
            }
        }
    }

    private static bool Goes(long round, Func<double> spent, ref double heat)
    {
        if (round % RoundsAtOnce == 0)
        {
            var share = spent();
            heat = share < 1 ? Hot * Math.Pow(Cold / Hot, share) : -1;
        }

        return heat > 0;
    }

    private double Limit(double score, double heat) => score - (heat * _shop.Mean * Math.Log(1 - _random.NextDouble()));

    private void Keep(FlowPlan plan)
    {
        if (plan.Makespan < Makespan)
        {
            _best.CopyFrom(plan);
        }
    }

    // Mostly one operation, now and then a job at some or at all stages.
    private void Change(FlowPlan plan)
    {
        var (job, stages) = (_random.Next(_shop.Jobs), _shop.Stages);
        var (from, to, reach) = (0, stages, Reach);
        switch (_random.Next(10))
        {
            case 0:
                plan.Swap(job, _random.Next(_shop.Jobs));
                return;
            case 1:
                reach *= 3;
                break;
            case 2:
                from = _random.Next(stages);
                to = from + 1 + _random.Next(stages - from);
                break;
            default:
                from = _random.Next(stages);
                to = from + 1;
                break;
        }

        plan.Shift(job, from, to, (int)(reach * _shop.Mean * ((2 * _random.NextDouble()) - 1)));
    }
}
