using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling.Lateness;

/// <summary>
/// Draws real times for the stages of a shop. A stage draws the same in every plan and for every question that has the same
/// seed, so that two plans differ in what was planned and not in luck, and a chance does not flicker from one minute to the next.
/// </summary>
internal static class Scatter
{
    /// <summary>The shop as it might turn out in one run.</summary>
    public static Shop Draw(Shop shop, int seed, int run)
    {
        var ways = shop.Ways.ToArray();
        var unload = shop.NotUnloadedBefore.ToArray();
        for (var op = 0; op < shop.Ops; op++)
        {
            var stage = shop.StageOf(op);
            if (stage.Spread is not { } spread)
            {
                continue;
            }

            unload[op] = 0;
            var ratio = Ratio(shop, op, stage.Id, spread, seed, run);
            for (var w = shop.FirstWay[op]; w < shop.FirstWay[op + 1]; w++)
            {
                var way = ways[w];
                ways[w] = way with { Load = Times(way.Load, ratio), Run = Times(way.Run, ratio), Unload = Times(way.Unload, ratio), Spacing = Times(way.Spacing, ratio) };
            }
        }

        return shop.With(ways, unload);
    }

    private static double Ratio(Shop shop, int op, int stageId, TimeSpread spread, int seed, int run)
    {
        var random = new SplitMix(unchecked(((ulong)(uint)seed << 40) ^ ((ulong)(uint)run << 32) ^ (uint)stageId));
        var least = shop.FrozenStart[op] is { } started ? Elapsed(shop, shop.Ways[shop.FirstWay[op]], started) : 0;
        if (least <= 0 || spread.LogDeviation <= 0)
        {
            return Math.Exp(spread.LogMean + (spread.LogDeviation * random.Normal()));
        }

        // A stage that runs already has not been over until now.
        return Math.Exp(spread.LogMean + (spread.LogDeviation * random.NormalAbove((Math.Log(least) - spread.LogMean) / spread.LogDeviation)));
    }

    // How much of its computed time a running stage has taken. Once that is over, time in which nobody could have taken the
    // sheet out tells nothing.
    private static double Elapsed(Shop shop, in Way way, int started)
    {
        var over = started + way.Total;
        var elapsed = Math.Min(shop.Now, over) - started;
        for (var i = 0; i < shop.Working.Count && shop.Now > over; i++)
        {
            var (from, to) = shop.Working.Span(i);
            elapsed += (int)Math.Max(0, Math.Min(to, shop.Now) - Math.Max(from, over));
        }

        return elapsed / (double)Math.Max(1, way.Total);
    }

    private static int Times(int seconds, double ratio) => (int)Math.Round(Math.Min(1e7, seconds * ratio));
}
