using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling;

/// <summary>A sheet during the dispatch: its next stage, since when that may start, and the best place found for it.</summary>
internal sealed class SheetQueue
{
    private readonly Shop _shop;
    private readonly int _end;
    private readonly double _weight;
    private readonly int _set;
    private double _work;
    private int _shortest;

    public SheetQueue(Shop shop, int job)
    {
        _shop = shop;
        _end = shop.FirstOp[job + 1];
        _weight = shop.Sheets[job].Weight;
        _set = shop.Tickets.TicketsOf[job].Max(t => shop.Tickets.JobsOf[t].Length);
        Op = shop.FirstOp[job];
        Ready = shop.Release[job];
        Urgency = Weigh();
        Measure();
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
        Measure();
    }

    /// <summary>The greater, the more urgent; by another rule than <see cref="Urgency"/>.</summary>
    /// <param name="at">When its machine is free, in seconds from the shop's origin.</param>
    /// <param name="rule">By how much time left and making ready count.</param>
    /// <param name="mean">Mean length of a stage in seconds.</param>
    public double Apparent(int at, ApparentUrgency rule, double mean) =>
        _weight / (_work * _set) * Math.Exp((-Math.Max(0, DueBy - at - _shortest) / (rule.LookAhead * mean)) - (Math.Max(0, Start - at) / (rule.Patience * mean)));

    private void Measure()
    {
        _work = 1;
        for (var op = Op; op < _end; op++)
        {
            var shortest = int.MaxValue;
            for (var way = _shop.FirstWay[op]; way < _shop.FirstWay[op + 1]; way++)
            {
                shortest = Math.Min(shortest, _shop.Ways[way].Total);
            }

            _work += shortest;
            _shortest = op == Op ? shortest : _shortest;
        }
    }

    // Dividing what is left makes a heavy sheet more urgent; once it is late, only multiplying does.
    private double Weigh()
    {
        var left = DueBy - _shop.Now;
        return left > 0 ? left / _weight : left * _weight;
    }
}
