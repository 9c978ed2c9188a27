namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>
/// Searches over one ranking of the jobs instead of over all operations: operations are placed as they become ready, and of
/// those that are ready at once the better ranked job first. In shops that all jobs pass in the same way this finds in few
/// rounds what single operations would take long to reach. Accepts worse plans as in simulated annealing.
/// </summary>
internal sealed class RankSearch
{
    private readonly Shop _shop;
    private readonly Placing _placing;
    private readonly Random _random;
    private readonly PriorityQueue<int, (int Ready, int Rank)> _ready = new();
    private readonly int[] _none;
    private readonly int[] _order;
    private readonly int[] _rank;
    private int[] _jobs;
    private int[] _tryJobs;
    private double _score;

    public RankSearch(Shop shop, Draft from, int seed)
    {
        (_shop, _random, _placing) = (shop, new Random(seed), new Placing(shop));
        _none = new int[shop.Ops];
        Array.Fill(_none, -1);
        (_order, _rank) = (new int[shop.Ops], new int[shop.Jobs]);
        _jobs = [.. Enumerable.Range(0, shop.Jobs).OrderBy(j => from.Start[shop.FirstOp[j]]).ThenBy(j => j)];
        _tryJobs = [.. _jobs];
        Best = from;
        _score = Build(_jobs, double.MaxValue) ? _placing.Score(_placing.Cost) : double.MaxValue;
    }

    public Draft Best { get; private set; }

    /// <summary>One leg of so many rounds, from hot to cold; stops early when told.</summary>
    public void Leg(long rounds, double hot, Func<bool> over)
    {
        for (var i = 0L; i < rounds && !((i & 15) == 0 && over()); i++)
        {
            var heat = _score * hot * Math.Pow(0.01, i / (double)rounds);
            var limit = _score - (heat * Math.Log(1 - _random.NextDouble()));
            Move();
            if (!Build(_tryJobs, limit))
            {
                continue;
            }

            (_jobs, _tryJobs) = (_tryJobs, _jobs);
            _score = _placing.Score(_placing.Cost);
            if (_placing.Cost < Best.Cost)
            {
                Best = _placing.Finish([.. _order], [.. _none]);
            }
        }
    }

    private void Move()
    {
        _jobs.CopyTo(_tryJobs, 0);
        var (from, to) = (_random.Next(_jobs.Length), _random.Next(_jobs.Length));
        if (_random.Next(3) == 0)
        {
            (_tryJobs[from], _tryJobs[to]) = (_tryJobs[to], _tryJobs[from]);
            return;
        }

        if (from > to)
        {
            Array.Copy(_jobs, to, _tryJobs, to + 1, from - to);
        }
        else
        {
            Array.Copy(_jobs, from + 1, _tryJobs, from, to - from);
        }

        _tryJobs[to] = _jobs[from];
    }

    private bool Build(int[] jobs, double limit)
    {
        _placing.Clear();
        _ready.Clear();
        var at = 0;
        for (var r = 0; r < jobs.Length; r++)
        {
            _rank[jobs[r]] = r;
        }

        foreach (var job in jobs)
        {
            var first = _shop.FirstOp[job];
            if (_shop.FrozenStart[first] is not null)
            {
                _order[at++] = job;
                Next(job, first);
            }
            else
            {
                _ready.Enqueue(first, (_shop.Release[job], _rank[job]));
            }
        }

        while (_ready.TryDequeue(out var op, out var key))
        {
            var job = _shop.JobOf[op];
            var spot = _placing.Table.Earliest(op, key.Ready, -1);
            var last = spot.Fits ? _placing.Place(op, spot) : -1;
            if (last < 0 || _placing.SoFar > limit)
            {
                return false;
            }

            for (var o = op; o <= last; o++)
            {
                _order[at++] = job;
            }

            Next(job, last);
        }

        return true;
    }

    private void Next(int job, int placed)
    {
        if (!_shop.IsLast(placed))
        {
            _ready.Enqueue(placed + 1, (Math.Max(_shop.Now, _placing.Table.Finish[placed] + _shop.MinWait[placed]), _rank[job]));
        }
    }
}
