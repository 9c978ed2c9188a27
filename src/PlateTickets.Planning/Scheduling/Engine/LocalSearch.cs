namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>
/// Improves a plan by placing its operations anew in another order. A move takes an operation that makes a late ticket late
/// and places it before the one that it waited for. Worse plans are accepted as in simulated annealing (S. Kirkpatrick,
/// C. D. Gelatt, M. P. Vecchi, Optimization by simulated annealing, Science 220, 1983, 671-680), in legs that each begin
/// near the best plan and last longer. Deterministic for a seed and a number of rounds.
/// </summary>
internal sealed class LocalSearch
{
    private const int Legs = 6;

    // Of a hundred moves so many take a whole job.
    private const int WholeJobs = 25;

    // Of the score, from leg to leg: cold legs polish, hot ones leave a valley. In a room with shifts a small move costs little and
    // a hot leg undoes a day's order that it does not find again: found by trying (60 sheets, 12 s: 530 instead of 1140 weighted minutes).
    private static readonly (double[] Hot, double CooledTo, double[] Floor) OfShop = ([0.02, 0.1, 0.05], 0.01, [0.2]);
    private static readonly (double[] Hot, double CooledTo, double[] Floor) OfRoom = ([0.002, 0.01, 0.005], 0.05, [0.2, 0.2, 0.06]);

    private readonly Shop _shop;
    private readonly Placing _placing;
    private readonly Blame _blame;
    private readonly Random _random;
    private readonly int _fixed;
    private readonly bool[] _held;
    private readonly (double[] Hot, double CooledTo, double[] Floor) _heat;
    private readonly int[] _position;
    private int[] _order;
    private int[] _choice;
    private int[] _tryOrder;
    private int[] _tryChoice;
    private double _score;
    private long _round;
    private long _legRound;
    private readonly double _meanWork;
    private long _legRounds;
    private double _hottest;
    private int _leg;

    /// <param name="shop">What is planned.</param>
    /// <param name="from">Where to begin.</param>
    /// <param name="seed">For the random moves.</param>
    /// <param name="held">Operations that keep their machine and their place, together with what comes before them in the order; null for none.</param>
    public LocalSearch(Shop shop, Draft from, int seed, bool[]? held = null)
    {
        _shop = shop;
        _random = new Random(seed);
        _heat = shop.Operators is not null || shop.Working.Count > 1 ? OfRoom : OfShop;
        _placing = new Placing(shop);
        _blame = new Blame(shop, _placing, _random);
        _held = held ?? new bool[shop.Ops];
        _fixed = from.Leading(shop, _held);
        (_order, _choice) = ([.. from.Order], [.. from.Choice]);
        (_tryOrder, _tryChoice) = ([.. from.Order], [.. from.Choice]);
        _position = new int[shop.Ops];
        _meanWork = shop.Ways.Average(w => w.Total) * shop.Tickets.Weight.Average();
        Best = from;
        Begin(from);
    }

    /// <summary>The best plan so far.</summary>
    public Draft Best { get; private set; }

    public long Rounds => _round;

    /// <summary>No leg that begins now is longer: a leg that is cut off while it is hot was for nothing.</summary>
    public long LongestLeg { get; set; } = long.MaxValue;

    /// <summary>Goes on from a better plan that somebody else found.</summary>
    public void Take(Draft better)
    {
        if (better.Cost < Best.Cost)
        {
            Best = better;
            Begin(better);
        }
    }

    /// <summary>Tries so many moves; true when a better plan was found.</summary>
    public bool Run(int rounds)
    {
        var found = false;
        for (var i = 0; i < rounds; i++)
        {
            found |= Round();
        }

        return found;
    }

    private bool Round()
    {
        _round++;
        if (_round - _legRound > _legRounds)
        {
            Shake();
        }

        if (!Propose())
        {
            return false;
        }

        // Drawn before the plan is built, so that a plan worse than this can be given up half-way.
        var limit = _score - (Heat * Math.Log(1 - _random.NextDouble()));
        var found = false;
        if (_placing.Build(_tryOrder, _tryChoice, limit + (limit * 1e-12) + 1e-9))
        {
            var cost = _placing.Cost;
            var score = _placing.Score(cost);
            if (score <= limit)
            {
                (_order, _tryOrder) = (_tryOrder, _order);
                (_choice, _tryChoice) = (_tryChoice, _choice);
                _score = score;
                Accept();
                if (cost < Best.Cost)
                {
                    Best = _placing.Finish([.. _order], [.. _choice]);
                    found = true;
                }
            }
        }

        return found;
    }

    private double Heat => _hottest * Math.Pow(_heat.CooledTo, (_round - _legRound) / (double)_legRounds);

    private void StartLeg()
    {
        _legRound = _round;
        _legRounds = Math.Clamp(Math.Max(200L, 1_000_000 / Math.Max(20, _shop.Ops)) << (_leg % Legs), 200L, Math.Max(200L, LongestLeg));
        _hottest = Math.Max(_score * _heat.Hot[_leg % _heat.Hot.Length], _shop.Makespan ? 1 : _meanWork * _heat.Floor[_leg % _heat.Floor.Length]);
    }

    private void Begin(Draft from)
    {
        from.Order.CopyTo(_order, 0);
        from.Choice.CopyTo(_choice, 0);
        _placing.Build(_order, _choice, double.MaxValue);
        _score = _placing.Score(_placing.Cost);
        StartLeg();
        Accept();
    }

    private void Shake()
    {
        _leg++;
        Begin(Best);
        for (var i = 0; i < 4 + _random.Next(8); i++)
        {
            _order.CopyTo(_tryOrder, 0);
            _choice.CopyTo(_tryChoice, 0);
            if (MoveAny() && _placing.Build(_tryOrder, _tryChoice, double.MaxValue))
            {
                (_order, _tryOrder) = (_tryOrder, _order);
                (_choice, _tryChoice) = (_tryChoice, _choice);
                _score = _placing.Score(_placing.Cost);
                Accept();
            }
        }

        StartLeg();
    }

    /// <summary>Sorts the order by the starts that it led to, so that "before" in the order and in time are the same.</summary>
    private void Accept()
    {
        var token = new int[_shop.Jobs];
        var ops = new int[_order.Length];
        var keys = new long[_order.Length];
        for (var i = 0; i < _order.Length; i++)
        {
            var op = _shop.FirstOp[_order[i]] + token[_order[i]]++;
            ops[i] = op;
            keys[i] = i < _fixed || _shop.FrozenStart[op] is not null ? i : (((long)_placing.Table.Start[op] + 1) * _order.Length) + i;
        }

        Array.Sort(keys, ops);
        for (var i = 0; i < ops.Length; i++)
        {
            _order[i] = _shop.JobOf[ops[i]];
            _position[ops[i]] = i;
        }

        _blame.Forget();
    }

    private bool Propose()
    {
        _order.CopyTo(_tryOrder, 0);
        _choice.CopyTo(_tryChoice, 0);
        if (_random.Next(10) == 0)
        {
            return MoveAny();
        }

        var (late, blocker) = _blame.Pick();
        if (late < 0)
        {
            return MoveAny();
        }

        if (_random.Next(100) < WholeJobs)
        {
            return MoveJob(_shop.JobOf[late], _shop.JobOf[blocker]);
        }

        if (_random.Next(6) == 0 && Turn(_random.Next(2) == 0 ? late : blocker))
        {
            return true;
        }

        var (from, to) = (_position[late], _position[blocker]);
        if (from < to)
        {
            // Placed before it and yet after it in time: then the other one makes way.
            return Shift(to, Math.Min(_order.Length - 1, from + 1 + _random.Next(3)));
        }

        return _random.Next(6) switch
        {
            0 => Shift(to, from),
            1 => Shift(from, Math.Max(0, to - _random.Next(1 + Math.Min(to, 2 * Math.Max(8, _order.Length / 20))))),
            _ => Shift(from, to),
        };
    }

    private bool MoveAny()
    {
        if (_random.Next(4) == 0 && Turn(_random.Next(_shop.Ops)))
        {
            return true;
        }

        if (_random.Next(100) < WholeJobs)
        {
            return MoveJob(_random.Next(_shop.Jobs), _random.Next(_shop.Jobs));
        }

        var from = _random.Next(_order.Length);
        var reach = Math.Max(4, _order.Length / 10);
        return Shift(from, Math.Clamp(from + _random.Next(-reach, reach + 1), 0, _order.Length - 1));
    }

    // Another machine for an operation, or again whichever finishes first.
    private bool Turn(int op)
    {
        var ways = _shop.FirstWay[op + 1] - _shop.FirstWay[op];
        if (ways < 2 || _held[op] || _position[op] < _fixed)
        {
            return false;
        }

        _tryChoice[op] = _random.Next(ways + 1) - 1;
        return _tryChoice[op] != _choice[op];
    }

    // All of a job's operations go before, or behind, those of another one with which they share their way through the room.
    private bool MoveJob(int job, int mark)
    {
        if (job == mark)
        {
            return false;
        }

        var behind = _random.Next(3) == 0;
        var (left, at) = (_shop.FirstOp[job + 1] - _shop.FirstOp[job], 0);
        for (var i = 0; i < _order.Length; i++)
        {
            if (i < _fixed)
            {
                left -= _order[i] == job ? 1 : 0;
                _tryOrder[at++] = _order[i];
                continue;
            }

            var here = _order[i] == mark && left > 0;
            if (here && !behind)
            {
                _tryOrder[at++] = job;
                left--;
            }

            if (_order[i] != job)
            {
                _tryOrder[at++] = _order[i];
            }

            if (here && behind)
            {
                _tryOrder[at++] = job;
                left--;
            }
        }

        while (left-- > 0)
        {
            _tryOrder[at++] = job;
        }

        return true;
    }

    private bool Shift(int from, int to)
    {
        (from, to) = (Math.Max(from, _fixed), Math.Max(to, _fixed));
        if (from == to || from >= _order.Length || to >= _order.Length)
        {
            return false;
        }

        var job = _order[from];
        if (from > to)
        {
            Array.Copy(_order, to, _tryOrder, to + 1, from - to);
        }
        else
        {
            Array.Copy(_order, from + 1, _tryOrder, from, to - from);
        }

        _tryOrder[to] = job;
        return true;
    }
}
