namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>A plan in the making that can be thrown away: where each operation lies, what it costs, and the order that leads to it.</summary>
/// <param name="Order">Jobs in the order in which their operations were placed: the n-th entry of a job is its n-th operation.</param>
/// <param name="Choice">The way that an operation is held to, counted from its first; -1 where the earliest finish decides.</param>
internal sealed record Draft(int[] Order, int[] Choice, int[] Start, int[] Finish, int[] Way, int[] Unit, PlanCost Cost)
{
    /// <summary>
    /// How much of the order must stay as it is for what is held to stay: up to the last held operation. One that is placed
    /// together with the one before it needs no place of its own. Running operations count only where something is held.
    /// </summary>
    public int Leading(Shop shop, bool[] held)
    {
        var leading = 0;
        if (!held.Contains(true))
        {
            return leading;
        }

        var token = new int[shop.Jobs];
        for (var i = 0; i < Order.Length; i++)
        {
            var op = shop.FirstOp[Order[i]] + token[Order[i]]++;
            var follows = held[op] && op > shop.FirstOp[Order[i]] && held[op - 1] && shop.Linked(op - 1);
            leading = !follows && (held[op] || shop.FrozenStart[op] is not null) ? i + 1 : leading;
        }

        return leading;
    }
}

/// <summary>Places operations one after the other, those that must follow each other soon together, and adds up what it costs.</summary>
internal sealed class Placing
{
    // How often a stage is put off for the next one to begin soon enough, before the wait is taken as it is.
    private const int Tries = 12;

    // A sheet that lies too long may be waste: it counts like tardiness ten times as long.
    private const double TooLong = 10;

    private readonly Shop _shop;
    private readonly int[] _token;
    private readonly int[] _placed;
    private readonly int[] _left;
    private readonly int[] _ticketEnd;
    private readonly double[] _jobWeight;
    private readonly double _perFlow;
    private double _main;
    private double _flow;
    private int _end;

    public Placing(Shop shop)
    {
        _shop = shop;
        Table = new Timetable(shop);
        (_token, _placed) = (new int[shop.Jobs], new int[shop.Jobs]);
        (_left, _ticketEnd) = (new int[shop.Tickets.Count], new int[shop.Tickets.Count]);
        _jobWeight = [.. shop.Tickets.TicketsOf.Select(ts => ts.Max(t => shop.Tickets.Weight[t]))];
        _perFlow = 0.001 / Math.Max(1e-9, shop.Tickets.Weight.Sum());
        Clear();
    }

    public Timetable Table { get; }

    /// <summary>The cost in one number for a search: finish times count a thousandth of the mean, changeovers nothing.</summary>
    public double Score(in PlanCost cost) => cost.Main + (_perFlow * cost.Then);

    public PlanCost Cost => new(_shop.Makespan ? _end - _shop.Now : _main, _flow, Table.Changeovers);

    /// <summary>The score of what is placed so far: it only grows.</summary>
    public double SoFar => (_shop.Makespan ? _end - _shop.Now : _main) + (_perFlow * _flow);

    public int TicketEnd(int ticket) => _ticketEnd[ticket];

    /// <summary>Are all of its jobs placed?</summary>
    public bool IsWhole(int ticket) => _left[ticket] == 0;

    public void Clear()
    {
        Table.Clear();
        (_main, _flow, _end) = (0, 0, _shop.Now);
        Array.Clear(_token);
        Array.Clear(_ticketEnd);
        for (var t = 0; t < _left.Length; t++)
        {
            _left[t] = _shop.Tickets.JobsOf[t].Length;
        }

        for (var j = 0; j < _shop.Jobs; j++)
        {
            var first = _shop.FirstOp[j];
            _placed[j] = first;
            if (_shop.FrozenStart[first] is not null)
            {
                Count(first);
            }
        }
    }

    public bool IsPlaced(int op) => op < _placed[_shop.JobOf[op]];

    /// <summary>Since when an operation may start, once the one before it is placed.</summary>
    public int Ready(int op)
    {
        var job = _shop.JobOf[op];
        return Math.Max(_shop.NotBefore[op], op == _shop.FirstOp[job] ? _shop.Release[job] : Math.Max(_shop.Now, Table.Finish[op - 1] + _shop.MinWait[op - 1]));
    }

    /// <summary>Builds the whole plan; false when the score has passed the limit on the way, or the calendar has ended.</summary>
    public bool Build(int[] order, int[] choice, double limit)
    {
        Clear();
        foreach (var job in order)
        {
            var op = _shop.FirstOp[job] + _token[job]++;
            if (op < _placed[job])
            {
                continue;
            }

            var spot = Table.Earliest(op, Ready(op), choice[op]);
            if (!spot.Fits)
            {
                return false;
            }

            if (Place(op, spot, choice) < 0)
            {
                return false;
            }

            if (SoFar > limit)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Books the operation, and those that must be placed with it. Returns the last one placed; -1 when the calendar has ended.</summary>
    public int Place(int op, Spot spot, int[]? choice = null)
    {
        while (_shop.Linked(op))
        {
            spot = PutOff(op, spot, choice);
            Table.Book(op, spot);
            Count(op);
            var next = Next(op, spot, choice);
            if (!next.Fits)
            {
                return -1;
            }

            op++;
            spot = next;
        }

        Table.Book(op, spot);
        Count(op);
        return op;
    }

    public Draft Finish(int[] order, int[]? choice) => new(
        order, choice ?? NoChoice(), [.. Table.Start], [.. Table.Finish], [.. Table.WayOf], [.. Table.UnitOf], Cost);

    private int[] NoChoice()
    {
        var none = new int[_shop.Ops];
        Array.Fill(none, -1);
        return none;
    }

    private Spot Next(int op, in Spot spot, int[]? choice) =>
        Table.Earliest(op + 1, Math.Max(_shop.NotBefore[op + 1], spot.Finish + _shop.MinWait[op]), choice?[op + 1] ?? -1);

    private Spot PutOff(int op, Spot spot, int[]? choice)
    {
        // What is kept where it was has been put off already.
        for (var i = 0; i < Tries && _shop.NotBefore[op] == 0; i++)
        {
            var next = Next(op, spot, choice);
            var tooLong = next.Fits ? next.Start - spot.Finish - _shop.MaxWait[op] : 0;
            if (tooLong <= 0)
            {
                break;
            }

            var later = Table.Earliest(op, spot.Start + tooLong, choice?[op] ?? -1);
            if (!later.Fits)
            {
                break;
            }

            spot = later;
        }

        return spot;
    }

    private void Count(int op)
    {
        var job = _shop.JobOf[op];
        _placed[job] = op + 1;
        if (op > _shop.FirstOp[job] && _shop.MaxWait[op - 1] != Shop.NoLimit)
        {
            _main += Math.Max(0, Table.Start[op] - Table.Finish[op - 1] - _shop.MaxWait[op - 1]) * TooLong * _jobWeight[job];
        }

        if (!_shop.IsLast(op))
        {
            return;
        }

        var finish = Table.Finish[op];
        _end = Math.Max(_end, finish);
        foreach (var t in _shop.Tickets.TicketsOf[job])
        {
            _ticketEnd[t] = Math.Max(_ticketEnd[t], finish);
            if (--_left[t] == 0)
            {
                _main += _shop.Tickets.Weight[t] * Math.Max(0, _ticketEnd[t] - _shop.Tickets.Due[t]);
                _flow += _shop.Tickets.Weight[t] * (_ticketEnd[t] - _shop.Now);
            }
        }
    }
}
