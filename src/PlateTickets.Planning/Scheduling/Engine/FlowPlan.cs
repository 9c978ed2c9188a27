namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>A plan of a flow shop: when each operation starts, in seconds from the begin, or from the end when it is read backwards.</summary>
internal sealed class FlowPlan(FlowShop shop)
{
    private readonly int[][] _key = [.. shop.Units.Select(_ => new int[shop.Jobs])];
    private readonly int[][] _order = [.. shop.Units.Select(_ => Enumerable.Range(0, shop.Jobs).ToArray())];
    private readonly int[] _done = new int[shop.Jobs];
    private readonly int[] _free = new int[shop.Units.Max()];
    private int _lastUnits;

    /// <summary>True when it is read from the last stage on: what starts then is an operation's end.</summary>
    public bool Backwards { get; set; }

    public int Makespan { get; private set; }

    public void CopyFrom(FlowPlan other)
    {
        for (var s = 0; s < _key.Length; s++)
        {
            other._key[s].CopyTo(_key[s], 0);
            other._order[s].CopyTo(_order[s], 0);
        }

        other._free.CopyTo(_free, 0);
        (Backwards, Makespan, _lastUnits) = (other.Backwards, other.Makespan, other._lastUnits);
    }

    /// <summary>The makespan, and a share of the mean end of the last stage's units.</summary>
    public double Score(double others)
    {
        var ends = 0;
        for (var u = 0; u < _lastUnits; u++)
        {
            ends += _free[u];
        }

        return Makespan + (others * ends / _lastUnits);
    }

    /// <summary>The jobs enter in this order, and every later stage takes them as they come.</summary>
    public void Enter(int[] ranking)
    {
        for (var at = 0; at < shop.Stages; at++)
        {
            var stage = Backwards ? shop.Stages - 1 - at : at;
            var order = _order[stage];
            if (at == 0)
            {
                ranking.CopyTo(order, 0);
                Array.Clear(_done);
            }
            else
            {
                _order[Backwards ? stage + 1 : stage - 1].CopyTo(order, 0);
                Sort(order, _done);
            }

            Place(stage, order);
        }

        Makespan = _done.Max();
    }

    /// <summary>Reads the plan from its other end and places everything as early as possible from there, first what was last: it ends no later than before.</summary>
    public void Push()
    {
        Array.Clear(_done);
        for (var at = 0; at < shop.Stages; at++)
        {
            var stage = Backwards ? at : shop.Stages - 1 - at;
            var (order, key, duration) = (_order[stage], _key[stage], shop.Durations[stage]);
            for (var j = 0; j < key.Length; j++)
            {
                key[j] = -key[j] - duration[j];
            }

            Array.Reverse(order);
            Sort(order, key);
            Place(stage, order);
        }

        Backwards = !Backwards;
        Makespan = _done.Max();
    }

    /// <summary>Moves a job's operations at some stages; the next push makes a plan of it.</summary>
    public void Shift(int job, int fromStage, int toStage, int seconds)
    {
        for (var stage = fromStage; stage < toStage; stage++)
        {
            _key[stage][job] += seconds;
        }
    }

    /// <summary>Two jobs change places; the next push makes a plan of it.</summary>
    public void Swap(int one, int two)
    {
        foreach (var key in _key)
        {
            (key[one], key[two]) = (key[two], key[one]);
        }
    }

    /// <summary>The jobs of all operations by their starts from the begin, what takes no time first.</summary>
    public int[] Order() => [.. _key.SelectMany((key, stage) => key.Select((_, job) => At(stage, job))).Order().Select(o => o.Job)];

    private (int Start, int End, int Stage, int Job) At(int stage, int job)
    {
        var (start, duration) = (_key[stage][job], shop.Durations[stage][job]);
        start = Backwards ? Makespan - start - duration : start;
        return (start, start + duration, stage, job);
    }

    private void Place(int stage, int[] order)
    {
        var (duration, key, done) = (shop.Durations[stage], _key[stage], _done);
        _lastUnits = shop.Units[stage];
        var free = _free.AsSpan(0, _lastUnits);
        free.Clear();
        foreach (var job in order)
        {
            var unit = 0;
            for (var u = 1; u < free.Length; u++)
            {
                unit = free[u] < free[unit] ? u : unit;
            }

            var start = Math.Max(free[unit], done[job]);
            key[job] = start;
            free[unit] = done[job] = start + duration[job];
        }
    }

    // By insertion: hardly anybody is overtaken.
    private static void Sort(int[] order, int[] key)
    {
        for (var i = 1; i < order.Length; i++)
        {
            var (job, at) = (order[i], i - 1);
            for (var time = key[job]; at >= 0 && key[order[at]] > time; at--)
            {
                order[at + 1] = order[at];
            }

            order[at + 1] = job;
        }
    }
}
