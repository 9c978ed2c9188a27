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
    private readonly int[] _choice;
    private readonly int[] _leading;
    private readonly int[] _order;
    private readonly int[] _rank;
    private readonly int[] _next;
    private int[] _jobs;
    private int[] _tryJobs;
    private double _score;

    public RankSearch(Shop shop, Draft from, int seed, bool[] held)
    {
        (_shop, _random, _placing) = (shop, new Random(seed), new Placing(shop));
        _leading = [.. from.Order.Take(from.Leading(shop, held))];
        _choice = [.. from.Choice.Select((c, op) => held[op] || op - shop.FirstOp[shop.JobOf[op]] < _leading.Count(j => j == shop.JobOf[op]) ? c : -1)];
        (_order, _rank, _next) = (new int[shop.Ops], new int[shop.Jobs], new int[shop.Jobs]);
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
            RankMove.Try(_jobs, _tryJobs, _random);
            if (!Build(_tryJobs, limit))
            {
                continue;
            }

            (_jobs, _tryJobs) = (_tryJobs, _jobs);
            _score = _placing.Score(_placing.Cost);
            if (_placing.Cost < Best.Cost)
            {
                Best = _placing.Finish([.. _order], [.. _choice]);
            }
        }
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
            _next[job] = _shop.FirstOp[job];
        }

        // Running and held operations first, as they are.
        foreach (var job in _leading)
        {
            var op = _next[job]++;
            _order[at++] = job;
            if (!_placing.IsPlaced(op) && (_placing.Table.Earliest(op, _placing.Ready(op), _choice[op]) is not { Fits: true } spot || _placing.Place(op, spot, _choice) < 0))
            {
                return false;
            }
        }

        foreach (var job in jobs)
        {
            var op = _next[job];
            for (; op < _shop.FirstOp[job + 1] && _placing.IsPlaced(op); op++)
            {
                _order[at++] = job;
            }

            if (op < _shop.FirstOp[job + 1])
            {
                _ready.Enqueue(op, (_placing.Ready(op), _rank[job]));
            }
        }

        while (_ready.TryDequeue(out var op, out var key))
        {
            var job = _shop.JobOf[op];
            var spot = _placing.Table.Earliest(op, key.Ready, _choice[op]);
            var last = spot.Fits ? _placing.Place(op, spot, _choice) : -1;
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
            _ready.Enqueue(placed + 1, (_placing.Ready(placed + 1), _rank[job]));
        }
    }
}
