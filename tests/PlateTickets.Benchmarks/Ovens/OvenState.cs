namespace PlateTickets.Benchmarks.Ovens;

/// <summary>
/// Batches in order on each machine, timed as early as that order allows: nothing in the goal gets better by waiting.
/// A change is made in steps, priced, then kept or undone.
/// </summary>
internal sealed class OvenState
{
    private readonly OvenFile _oven;
    private readonly long[][] _setupPrice;
    private readonly long _outside;
    private readonly Stack<int> _unused = new();
    private readonly List<(Step Kind, int What, int To, int At)> _steps = [];

    // By batch.
    private readonly int[][] _jobs;
    private readonly int[] _count;
    private readonly int[] _size;
    private readonly int[] _release;
    private readonly int[] _length;
    private readonly int[] _longest;
    private readonly int[] _attribute;
    private readonly int[] _machine;
    private readonly int[] _position;

    // By machine and position. What a change would give stands in _then until it is kept.
    private readonly int[][] _order;
    private readonly int[] _filled;
    private readonly int[] _changedFrom;
    private readonly long[] _kept;
    private readonly long[] _priced;
    private readonly (int End, int Shift, long Cost)[][] _now;
    private readonly (int End, int Shift, long Cost)[][] _then;
    private long _thenTotal;

    public OvenState(OvenFile oven)
    {
        _oven = oven;
        var (jobs, machines, weights) = (oven.Jobs.Length, oven.Machines.Length, oven.Weights);
        _setupPrice = [.. Enumerable.Range(0, oven.Attributes).Select(a => Enumerable.Range(0, oven.Attributes)
            .Select(b => (weights.SetupTime * oven.SetupTime(a, b)) + (weights.SetupCost * oven.SetupCost(a, b))).ToArray())];

        // Dearer than any plan inside the working intervals.
        _outside = 1 + oven.Jobs.Sum(j => weights.Late + (weights.RunTime * j.MinTime)) + (jobs * _setupPrice.Max(row => row.Max()));
        BatchOf = new int[jobs];
        Array.Fill(BatchOf, -1);
        _jobs = [.. Enumerable.Range(0, jobs).Select(_ => new int[jobs])];
        (_count, _size, _release, _length, _longest) = (new int[jobs], new int[jobs], new int[jobs], new int[jobs], new int[jobs]);
        (_attribute, _machine, _position) = (new int[jobs], new int[jobs], new int[jobs]);
        _order = [.. Enumerable.Range(0, machines).Select(_ => new int[jobs])];
        (_filled, _changedFrom, _kept, _priced) = (new int[machines], new int[machines], new long[machines], new long[machines]);
        Array.Fill(_changedFrom, int.MaxValue);
        _now = [.. Enumerable.Range(0, machines).Select(_ => new (int, int, long)[jobs])];
        _then = [.. Enumerable.Range(0, machines).Select(_ => new (int, int, long)[jobs])];
        for (var b = jobs - 1; b >= 0; b--)
        {
            _unused.Push(b);
        }
    }

    private enum Step
    {
        Put,
        Take,
        Open,
        Close,
    }

    public long Total { get; private set; }

    /// <summary>Whether a batch lies outside the working intervals, which no finished plan may.</summary>
    public bool Overruns => Total >= _outside;

    /// <summary>The batch of each job, -1 while it has none.</summary>
    public int[] BatchOf { get; }

    public int NextBatch => _unused.Peek();

    public int MachineOf(int batch) => _machine[batch];

    public int PositionOf(int batch) => _position[batch];

    public int Filled(int machine) => _filled[machine];

    public int BatchAt(int machine, int position) => _order[machine][position];

    public ReadOnlySpan<int> JobsOf(int batch) => _jobs[batch].AsSpan(0, _count[batch]);

    public bool JobFits(int job, int batch)
    {
        var wanted = _oven.Jobs[job];
        return wanted.Attribute == _attribute[batch] && wanted.MinTime <= _longest[batch] && wanted.MaxTime >= _length[batch]
            && _size[batch] + wanted.Size <= _oven.Machines[_machine[batch]].Capacity && wanted.Machines.AsSpan().Contains(_machine[batch]);
    }

    public bool BatchFits(int batch, int machine)
    {
        if (_size[batch] > _oven.Machines[machine].Capacity)
        {
            return false;
        }

        foreach (var job in JobsOf(batch))
        {
            if (!_oven.Jobs[job].Machines.AsSpan().Contains(machine))
            {
                return false;
            }
        }

        return true;
    }

    public void Put(int job, int batch)
    {
        _steps.Add((Step.Put, job, batch, 0));
        PutNow(job, batch);
    }

    /// <summary>Takes a job out of its batch, which may be left empty and must then be closed.</summary>
    public void Take(int job)
    {
        var batch = BatchOf[job];
        _steps.Add((Step.Take, job, batch, 0));
        TakeNow(job, batch);
    }

    public void Open(int batch, int machine, int position)
    {
        _steps.Add((Step.Open, batch, machine, position));
        OpenNow(batch, machine, position);
    }

    /// <summary>Takes a batch, with the jobs it may hold, out of the order of its machine.</summary>
    public void Close(int batch)
    {
        _steps.Add((Step.Close, batch, _machine[batch], _position[batch]));
        CloseNow(batch);
    }

    /// <summary>What the plan would cost with the steps made; gives up with the largest number once it is over the limit.</summary>
    public long Price(long limit)
    {
        var total = Total;
        for (var m = 0; m < _order.Length; m++)
        {
            total -= _changedFrom[m] == int.MaxValue ? 0 : _kept[m];
        }

        for (var m = 0; m < _order.Length && total <= limit; m++)
        {
            if (_changedFrom[m] != int.MaxValue)
            {
                _priced[m] = PriceOf(m, limit - total);
                total += _priced[m] == long.MaxValue ? limit - total + 1 : _priced[m];
            }
        }

        _thenTotal = total;
        return total > limit ? long.MaxValue : total;
    }

    /// <summary>Keeps the steps, which must have been priced within their limit.</summary>
    public void Keep()
    {
        for (var m = 0; m < _order.Length; m++)
        {
            if (_changedFrom[m] != int.MaxValue)
            {
                var from = Math.Min(_changedFrom[m], _filled[m]);
                Array.Copy(_then[m], from, _now[m], from, _filled[m] - from);
                _kept[m] = _priced[m];
            }
        }

        Total = _thenTotal;
        Forget();
    }

    public void Undo()
    {
        for (var i = _steps.Count - 1; i >= 0; i--)
        {
            var (kind, what, to, at) = _steps[i];
            switch (kind)
            {
                case Step.Put:
                    TakeNow(what, to);
                    break;
                case Step.Take:
                    PutNow(what, to);
                    break;
                case Step.Open:
                    CloseNow(what);
                    break;
                default:
                    OpenNow(what, to, at);
                    break;
            }
        }

        Forget();
    }

    public IReadOnlyList<OvenBatch> Read() => [.. Enumerable.Range(0, _order.Length).SelectMany(m => Enumerable.Range(0, _filled[m]).Select(p =>
    {
        var batch = _order[m][p];
        return new OvenBatch(m, _now[m][p].End - _length[batch], _now[m][p].End, [.. JobsOf(batch).ToArray().Order()]);
    }))];

    /// <summary>Takes over finished batches: who lies with whom and in which order.</summary>
    public void Load(IReadOnlyList<OvenBatch> batches)
    {
        for (var job = 0; job < BatchOf.Length; job++)
        {
            if (BatchOf[job] is var batch and >= 0)
            {
                Take(job);
                if (_count[batch] == 0)
                {
                    Close(batch);
                }
            }
        }

        foreach (var batch in batches.OrderBy(b => b.Start))
        {
            var next = NextBatch;
            Open(next, batch.Machine, _filled[batch.Machine]);
            foreach (var job in batch.Jobs)
            {
                Put(job, next);
            }
        }

        Price(long.MaxValue);
        Keep();
    }

    private void Forget()
    {
        _steps.Clear();
        Array.Fill(_changedFrom, int.MaxValue);
    }

    private long PriceOf(int m, long limit)
    {
        var (order, then, weights, shifts) = (_order[m], _then[m], _oven.Weights, _oven.Machines[m].Shifts);
        var from = Math.Min(_changedFrom[m], _filled[m]);
        var (end, shift, cost) = from == 0 ? (0, 0, 0L) : _now[m][from - 1];
        var attribute = from == 0 ? _oven.Machines[m].FirstAttribute : _attribute[order[from - 1]];
        for (var p = from; p < _filled[m]; p++)
        {
            var batch = order[p];
            var (setup, length) = (_oven.SetupTime(attribute, _attribute[batch]), _length[batch]);
            var start = Math.Max(_release[batch], end + setup);
            while (shift < shifts.Length && Math.Max(start, shifts[shift].Start + setup) + length > shifts[shift].End)
            {
                shift++;
            }

            if (shift < shifts.Length)
            {
                start = Math.Max(start, shifts[shift].Start + setup);
            }
            else
            {
                start = Math.Max(start, shifts.Length > 0 ? shifts[^1].End : 0);
                cost += _outside;
            }

            end = start + length;
            cost += _setupPrice[attribute][_attribute[batch]] + (weights.RunTime * length);
            foreach (var job in _jobs[batch].AsSpan(0, _count[batch]))
            {
                cost += end > _oven.Jobs[job].Due ? weights.Late : 0;
            }

            if (cost > limit)
            {
                return long.MaxValue;
            }

            then[p] = (end, shift, cost);
            attribute = _attribute[batch];
        }

        return cost;
    }

    private void PutNow(int job, int batch)
    {
        var added = _oven.Jobs[job];
        if (_count[batch] == 0)
        {
            (_size[batch], _release[batch], _length[batch], _longest[batch], _attribute[batch]) = (0, 0, 0, int.MaxValue, added.Attribute);
        }

        _jobs[batch][_count[batch]++] = job;
        BatchOf[job] = batch;
        Add(batch, added);
        Changed(_machine[batch], _position[batch]);
    }

    private void TakeNow(int job, int batch)
    {
        var jobs = _jobs[batch];
        jobs[Array.IndexOf(jobs, job, 0, _count[batch])] = jobs[--_count[batch]];
        BatchOf[job] = -1;
        (_size[batch], _release[batch], _length[batch], _longest[batch]) = (0, 0, 0, int.MaxValue);
        foreach (var left in JobsOf(batch))
        {
            Add(batch, _oven.Jobs[left]);
        }

        Changed(_machine[batch], _position[batch]);
    }

    private void Add(int batch, OvenJob job)
    {
        _size[batch] += job.Size;
        _release[batch] = Math.Max(_release[batch], job.Release);
        _length[batch] = Math.Max(_length[batch], job.MinTime);
        _longest[batch] = Math.Min(_longest[batch], job.MaxTime);
    }

    private void OpenNow(int batch, int machine, int position)
    {
        if (_count[batch] == 0)
        {
            _unused.Pop();
        }

        var order = _order[machine];
        for (var p = _filled[machine]++; p > position; p--)
        {
            order[p] = order[p - 1];
            _position[order[p]] = p;
        }

        order[position] = batch;
        (_machine[batch], _position[batch]) = (machine, position);
        Changed(machine, position);
    }

    private void CloseNow(int batch)
    {
        if (_count[batch] == 0)
        {
            _unused.Push(batch);
        }

        var (machine, position) = (_machine[batch], _position[batch]);
        var order = _order[machine];
        var last = --_filled[machine];
        for (var p = position; p < last; p++)
        {
            order[p] = order[p + 1];
            _position[order[p]] = p;
        }

        Changed(machine, position);
    }

    private void Changed(int machine, int position) => _changedFrom[machine] = Math.Min(_changedFrom[machine], position);
}
