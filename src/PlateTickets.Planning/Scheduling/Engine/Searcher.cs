namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>One searching thread: a ranking of the jobs as long as that pays, then single operations, always on from the best plan of all threads.</summary>
internal sealed class Searcher(Shop shop, Best best, bool[] held, int seed, Func<double> spent, Func<bool> over)
{
    /// <summary>Tries the other rules of the dispatcher first; in one of several searches.</summary>
    public bool TriesRules { get; init; }

    /// <summary>The share of the time after which the cores are left to the solver, as long as somebody is late and it has not proved that it must be so.</summary>
    public double Until { get; init; } = 1;

    private const int RoundsAtOnce = 50;

    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(20);

    // Shares of the time: the ranking is tried so long, and goes on so long where it found better plans.
    private const double Try = 0.04;
    private const double GoOn = 0.4;

    // In a flow shop: rankings are searched so long, then plans that are pushed to and fro.
    private const double FlowRank = 0.15;
    private const double FlowPush = 0.9;

    // A leg takes at most so much of the time that is left.
    private const double LegOfTheRest = 0.5;

    public void Run()
    {
        Dispatch();
        if (FlowSearch.Of(shop, held, seed) is { } flow)
        {
            Flow(flow);
        }
        else
        {
            Rank();
        }

        var began = spent();
        var search = new LocalSearch(shop, best.Now, seed, held);
        while (!over())
        {
            var so = spent();
            if (so >= Until && best.Now.Cost.Main > 0 && !best.Proved)
            {
                Thread.Sleep(Pause);
                continue;
            }

            if (so > began)
            {
                search.LongestLeg = (long)(search.Rounds / (so - began) * (1 - so) * LegOfTheRest);
            }

            if (search.Run(RoundsAtOnce))
            {
                best.Offer(search.Best);
            }

            if (best.Now.Cost < search.Best.Cost)
            {
                search.Take(best.Now);
            }
        }
    }

    // Where nobody is late there is nothing to weigh against each other.
    private void Dispatch()
    {
        foreach (var rule in TriesRules && !shop.Makespan ? ApparentUrgency.ToTry : [])
        {
            if (over() || best.Now.Cost.Main <= 0)
            {
                return;
            }

            if (new Dispatch(shop, rule).TryRun(best.Now, held) is { } draft)
            {
                best.Offer(draft);
            }
        }
    }

    private void Flow(FlowSearch flow)
    {
        Leg(FlowRank / 2, until => flow.Rank(backwards: false, until));
        Leg(FlowRank, until => flow.Rank(backwards: true, until));
        Leg(FlowPush, flow.Push);

        void Leg(double until, Action<Func<double>> search)
        {
            var began = spent();
            search(() => over() ? 1 : (spent() - began) / (until - began));
            var placing = new Placing(shop);
            int[] choice = [.. Enumerable.Repeat(-1, shop.Ops)];
            var order = flow.Order();
            if (placing.Build(order, choice, double.MaxValue))
            {
                best.Offer(placing.Finish(order, choice));
            }
        }
    }

    private void Rank()
    {
        var ranked = new RankSearch(shop, best.Now, seed, held);
        var until = Try;
        for (var rounds = 500L; !over() && spent() < GoOn; rounds = Math.Min(rounds * 2, 32_000))
        {
            ranked.Leg(rounds, rounds < 4_000 ? 0.002 : 0.008, () => over() || spent() >= until);
            if (best.Offer(ranked.Best))
            {
                until = GoOn;
            }
            else if (spent() >= until)
            {
                return;
            }
        }
    }
}
