using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling;

/// <summary>A sheet during the dispatch: its next stage, since when that may start, and the best place found for it.</summary>
internal sealed class SheetQueue
{
    private readonly Shop _shop;
    private readonly int _end;
    private readonly double _weight;

    public SheetQueue(Shop shop, int job)
    {
        _shop = shop;
        _end = shop.FirstOp[job + 1];
        _weight = shop.Sheets[job].Weight;
        Op = shop.FirstOp[job];
        Ready = shop.Release[job];
        Urgency = Weigh();
    }

    public int Op { get; private set; }

    public bool Done => Op == _end;

    /// <summary>Latest finish of the next stage, in seconds from the shop's origin.</summary>
    public double DueBy => (_shop.DueBy[Op] - _shop.Origin.Ticks) / (double)TimeSpan.TicksPerSecond;

    public int Ready { get; private set; }

    /// <summary>The smaller, the more urgent.</summary>
    public double Urgency { get; private set; }

    /// <summary>The best place found for it.</summary>
    public Spot Best { get; private set; }

    public int Machine { get; private set; }

    public int Start { get; private set; }

    public void Take(in Spot best) => (Best, Machine, Start) = (best, _shop.Ways[best.Way].Machine, best.Start);

    /// <summary>Goes on behind an operation that was placed.</summary>
    public void Advance(int placed, int finish)
    {
        Ready = Math.Max(_shop.Now, finish + _shop.MinWait[placed]);
        Op = placed + 1;
        Urgency = Done ? 0 : Weigh();
    }

    // Dividing what is left makes a heavy sheet more urgent; once it is late, only multiplying does.
    private double Weigh()
    {
        var left = DueBy - _shop.Now;
        return left > 0 ? left / _weight : left * _weight;
    }
}
