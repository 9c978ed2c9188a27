using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Engine;
using static PlateTickets.Planning.Tests.Scheduling.Rooms;

namespace PlateTickets.Planning.Tests.Scheduling;

/// <summary>When a search leaves the cores to the solver.</summary>
public sealed class SearcherTests
{
    [Fact]
    public void NobodyLate_ItGoesOnForEarlierFinishes()
    {
        var (first, best) = Search(Min(10 * 24 * 60));
        Assert.Equal(0, first.Cost.Main);
        Assert.True(best.Cost.Then < first.Cost.Then);
    }

    [Fact]
    public void SomebodyLate_ItWaitsForTheSolver()
    {
        var (first, best) = Search(Min(1));
        Assert.True(best.Cost.Main > 0);
        Assert.Equal(first.Cost, best.Cost);
    }

    // One machine, the longest first: shortest first ends sooner on the whole (Smith's rule), in time or late.
    private static (Draft First, Draft Best) Search(TimeSpan due)
    {
        var sheets = Enumerable.Range(0, 6).Select(i => Sheet(i, Stage(i, On(1, 0, 60 - (8 * i), 0))) with { DueUtc = At(0) + due }).ToList();
        var shop = new Shop(new PlanRequest(At(0), [Single(1)], sheets, Always));
        int[] order = [.. Enumerable.Range(0, 6)];
        int[] choice = [.. Enumerable.Repeat(-1, shop.Ops)];
        var placing = new Placing(shop);
        Assert.True(placing.Build(order, choice, double.MaxValue));
        var first = placing.Finish(order, choice);
        var held = new bool[shop.Ops];
        var best = new Best(first, held);
        // Past the ranking part, so that single operations are all there is.
        var asked = 0;
        new Searcher(shop, best, held, 1, () => 0.5, () => asked++ > 60) { Until = 0.2 }.Run();
        return (first, best.Now);
    }
}
