using System.Diagnostics;

namespace PlateTickets.Benchmarks.Ovens;

/// <summary>Simulated annealing: jobs and batches change place, dearer plans are taken ever more rarely.</summary>
internal sealed class OvenAnnealing
{
    private readonly OvenFile _oven;
    private readonly OvenState _state;
    private readonly Random _random;
    private readonly int[][] _alike;

    public OvenAnnealing(OvenFile oven, IReadOnlyList<OvenBatch> first, int seed)
    {
        (_oven, _state, _random) = (oven, new OvenState(oven), new Random(seed));
        _alike = [.. Enumerable.Range(0, oven.Attributes).Select(a => Enumerable.Range(0, oven.Jobs.Length).Where(j => oven.Jobs[j].Attribute == a).ToArray())];
        _state.Load(first);
        (Best, BestTotal) = (first, _state.Total);
    }

    public IReadOnlyList<OvenBatch> Best { get; private set; }

    public long BestTotal { get; private set; }

    /// <summary>Cools once, from where the search stands, in the given time.</summary>
    public void Cool(TimeSpan within, double heat)
    {
        var weights = _oven.Weights;
        var hot = heat * new[] { weights.Late, weights.RunTime, weights.SetupTime, weights.SetupCost, 1 }.Max();
        var cold = 0.1 * new[] { weights.RunTime, weights.Late, weights.SetupTime, weights.SetupCost }.Where(w => w > 0).DefaultIfEmpty(1).Min();
        var (watch, temperature) = (Stopwatch.StartNew(), hot);
        for (var move = 0L; ; move++)
        {
            if (move % 256 == 0)
            {
                var gone = watch.Elapsed / within;
                if (gone >= 1)
                {
                    return;
                }

                temperature = hot * Math.Pow(cold / hot, gone);
            }

            if (!Change())
            {
                _state.Undo();
                continue;
            }

            var limit = _state.Total + (long)Math.Min(1e17, -temperature * Math.Log(1 - _random.NextDouble()));
            if (_state.Price(limit) <= limit)
            {
                _state.Keep();
                if (_state.Total < BestTotal)
                {
                    (Best, BestTotal) = (_state.Read(), _state.Total);
                }
            }
            else
            {
                _state.Undo();
            }
        }
    }

    /// <summary>Goes on from a plan found by anyone, not so hot as to forget it.</summary>
    public void Reheat(IReadOnlyList<OvenBatch> from, TimeSpan within, double heat)
    {
        _state.Load(from);
        if (_state.Total < BestTotal)
        {
            (Best, BestTotal) = (from, _state.Total);
        }

        Cool(within, heat);
    }

    // Makes the steps of one random change; false if they lead nowhere.
    private bool Change()
    {
        var job = _random.Next(_oven.Jobs.Length);
        return _random.Next(100) switch
        {
            < 30 => JobToBatch(job),
            < 55 => SwapJobs(job),
            < 65 => JobAlone(job),
            < 82 => MoveBatch(_state.BatchOf[job]),
            < 92 => SwapBatches(_state.BatchOf[job], _state.BatchOf[_random.Next(_oven.Jobs.Length)]),
            _ => Merge(_state.BatchOf[job], _state.BatchOf[Alike(job)]),
        };
    }

    private int Alike(int job)
    {
        var alike = _alike[_oven.Jobs[job].Attribute];
        return alike[_random.Next(alike.Length)];
    }

    private bool JobToBatch(int job)
    {
        var (from, to) = (_state.BatchOf[job], _state.BatchOf[Alike(job)]);
        if (from == to || !_state.JobFits(job, to))
        {
            return false;
        }

        TakeOut(job);
        _state.Put(job, to);
        return true;
    }

    private bool SwapJobs(int job)
    {
        var other = Alike(job);
        var (here, there) = (_state.BatchOf[job], _state.BatchOf[other]);
        if (here == there)
        {
            return false;
        }

        _state.Take(job);
        _state.Take(other);
        if (_state.JobFits(job, there) && _state.JobFits(other, here))
        {
            _state.Put(job, there);
            _state.Put(other, here);
            return true;
        }

        return false;
    }

    private bool JobAlone(int job)
    {
        var machines = _oven.Jobs[job].Machines;
        var m = machines[_random.Next(machines.Length)];
        if (_oven.Jobs[job].Size > _oven.Machines[m].Capacity)
        {
            return false;
        }

        TakeOut(job);
        var batch = _state.NextBatch;
        _state.Open(batch, m, _random.Next(_state.Filled(m) + 1));
        _state.Put(job, batch);
        return true;
    }

    private bool MoveBatch(int batch)
    {
        var m = _random.Next(_oven.Machines.Length);
        if (!_state.BatchFits(batch, m))
        {
            return false;
        }

        _state.Close(batch);
        _state.Open(batch, m, _random.Next(_state.Filled(m) + 1));
        return true;
    }

    private bool SwapBatches(int one, int two)
    {
        var (m, n) = (_state.MachineOf(one), _state.MachineOf(two));
        if (one == two || !_state.BatchFits(one, n) || !_state.BatchFits(two, m))
        {
            return false;
        }

        // The later one first, so that the earlier place is still the same.
        if (m == n && _state.PositionOf(one) < _state.PositionOf(two))
        {
            (one, two) = (two, one);
        }

        var (p, q) = (_state.PositionOf(one), _state.PositionOf(two));
        _state.Close(one);
        _state.Close(two);
        _state.Open(one, n, q);
        _state.Open(two, m, p);
        return true;
    }

    private bool Merge(int batch, int into)
    {
        if (batch == into)
        {
            return false;
        }

        while (_state.JobsOf(batch) is { Length: > 0 } jobs)
        {
            var job = jobs[0];
            if (!_state.JobFits(job, into))
            {
                return false;
            }

            TakeOut(job);
            _state.Put(job, into);
        }

        return true;
    }

    private void TakeOut(int job)
    {
        var batch = _state.BatchOf[job];
        _state.Take(job);
        if (_state.JobsOf(batch).Length == 0)
        {
            _state.Close(batch);
        }
    }
}
