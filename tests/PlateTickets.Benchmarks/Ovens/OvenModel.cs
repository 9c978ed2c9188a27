using System.Globalization;
using Google.OrTools.Sat;

namespace PlateTickets.Benchmarks.Ovens;

/// <summary>
/// The oven rules as a constraint model. A batch is named after the longest of its jobs, the first of equals, so its length is
/// known beforehand and no two batches are the same in other words. Without times it knows batches, machines and the number
/// of changeovers only: a bound that is quick to find also where the whole model is too large.
/// </summary>
internal sealed class OvenModel
{
    private const int DueTimes = 12;

    private readonly OvenFile _oven;
    private readonly int[] _rank;
    private readonly BoolVar?[,] _join;
    private readonly BoolVar?[,] _on;
    private readonly BoolVar[] _late;
    private readonly List<(BoolVar Lit, int Machine, int From, int To)> _arcs = [];
    private readonly List<(BoolVar Lit, int Batch, int Machine, int Shift)> _shifts = [];
    private readonly IntVar[] _from;
    private readonly IntVar[] _start;
    private readonly LinearExprBuilder _cost = LinearExpr.NewBuilder();

    public OvenModel(OvenFile oven, bool timed)
    {
        _oven = oven;
        var jobs = oven.Jobs.Length;
        _rank = new int[jobs];
        foreach (var (job, rank) in Enumerable.Range(0, jobs).OrderByDescending(j => oven.Jobs[j].MinTime).ThenBy(j => j).Select((j, i) => (j, i)))
        {
            _rank[job] = rank;
        }

        (_join, _on) = (new BoolVar?[jobs, jobs], new BoolVar?[jobs, oven.Machines.Length]);
        _late = [.. Enumerable.Range(0, jobs).Select(j => Model.NewBoolVar($"late{j}"))];
        (_from, _start) = (new IntVar[jobs], new IntVar[jobs]);
        for (var r = 0; r < jobs; r++)
        {
            Fill(r);
        }

        for (var j = 0; j < jobs; j++)
        {
            Model.AddExactlyOne(Enumerable.Range(0, jobs).Select(r => _join[r, j]).OfType<BoolVar>());
            _cost.AddTerm(_late[j], oven.Weights.Late);
            _cost.AddTerm(_join[j, j]!, oven.Weights.RunTime * oven.Jobs[j].MinTime);
            BoundLate(j);
        }

        if (timed)
        {
            for (var r = 0; r < jobs; r++)
            {
                Time(r);
            }

            for (var m = 0; m < oven.Machines.Length; m++)
            {
                Sequence(m);
            }
        }
        else
        {
            for (var m = 0; m < oven.Machines.Length; m++)
            {
                CountChangeovers(m);
            }
        }

        ShareTimeBeforeDue();

        Model.Minimize(_cost);
    }

    public CpModel Model { get; } = new();

    /// <summary>Tells the solver a bound known from elsewhere.</summary>
    public void AtLeast(long bound) => Model.Add(_cost >= bound);

    public void Hint(IReadOnlyList<OvenBatch> batches)
    {
        var jobs = _oven.Jobs.Length;
        var named = batches.ToDictionary(b => b.Jobs.MinBy(j => _rank[j]));
        var late = batches.SelectMany(b => b.Jobs.Where(j => b.End > _oven.Jobs[j].Due)).ToHashSet();
        var before = new Dictionary<int, int>();
        var last = Enumerable.Repeat(-1, _oven.Machines.Length).ToArray();
        foreach (var (name, batch) in named.OrderBy(b => b.Value.Start))
        {
            (before[name], last[batch.Machine]) = (last[batch.Machine], name);
        }

        for (var r = 0; r < jobs; r++)
        {
            var batch = named.GetValueOrDefault(r);
            for (var j = 0; j < jobs; j++)
            {
                Hint(_join[r, j], batch is not null && batch.Jobs.Contains(j));
            }

            for (var m = 0; m < last.Length; m++)
            {
                Hint(_on[r, m], batch?.Machine == m);
            }

            Hint(_late[r], late.Contains(r));
            if (batch is not null)
            {
                var (was, now) = (before[r] < 0 ? _oven.Machines[batch.Machine].FirstAttribute : _oven.Jobs[before[r]].Attribute, _oven.Jobs[r].Attribute);
                Model.AddHint(_start[r], batch.Start);
                Model.AddHint(_from[r], batch.Start - _oven.SetupTime(was, now));
            }
        }

        foreach (var (lit, machine, from, to) in _arcs)
        {
            Hint(lit, from < 0 && to < 0 ? last[machine] < 0 : to < 0 ? last[machine] == from
                : named.TryGetValue(to, out var batch) && batch.Machine == machine && before[to] == from);
        }

        foreach (var (lit, name, machine, shift) in _shifts)
        {
            Hint(lit, named.TryGetValue(name, out var batch) && batch.Machine == machine
                && batch.Start >= _oven.Machines[machine].Shifts[shift].Start && batch.End <= _oven.Machines[machine].Shifts[shift].End);
        }
    }

    public IReadOnlyList<OvenBatch> Read(Func<BoolVar, bool> truth, Func<IntVar, long> value) =>
        [.. from r in Enumerable.Range(0, _oven.Jobs.Length)
            where truth(_join[r, r]!)
            let start = (int)value(_start[r])
            let machine = Enumerable.Range(0, _oven.Machines.Length).First(m => _on[r, m] is { } used && truth(used))
            select new OvenBatch(
                machine, start, start + _oven.Jobs[r].MinTime,
                [.. Enumerable.Range(0, _oven.Jobs.Length).Where(j => _join[r, j] is { } with && truth(with))])];

    private void Hint(BoolVar? lit, bool value)
    {
        if (lit is not null)
        {
            Model.AddHint(lit, value);
        }
    }

    // Who may lie in the batch named after r, and where.
    private void Fill(int r)
    {
        var named = _oven.Jobs[r];
        var open = _join[r, r] = Model.NewBoolVar($"open{r}");
        var (filled, capacity, machines) = (LinearExpr.NewBuilder(), LinearExpr.NewBuilder(), LinearExpr.NewBuilder());
        foreach (var m in named.Machines.Where(m => named.Size <= _oven.Machines[m].Capacity))
        {
            _on[r, m] = Model.NewBoolVar($"on{r},{m}");
            capacity.AddTerm(_on[r, m]!, _oven.Machines[m].Capacity);
            machines.Add(_on[r, m]!);
        }

        Model.Add(machines == open);
        filled.AddTerm(open, named.Size);
        for (var j = 0; j < _oven.Jobs.Length; j++)
        {
            var job = _oven.Jobs[j];
            if (_rank[j] <= _rank[r] || job.Attribute != named.Attribute || job.MaxTime < named.MinTime)
            {
                continue;
            }

            var shared = job.Machines.Where(m => _on[r, m] is not null && named.Size + job.Size <= _oven.Machines[m].Capacity).ToList();
            if (shared.Count > 0)
            {
                var join = _join[r, j] = Model.NewBoolVar($"join{r},{j}");
                filled.AddTerm(join, job.Size);
                Model.AddImplication(join, open);
                Model.Add(LinearExpr.Sum(shared.Select(m => _on[r, m]!)) >= join);
            }
        }

        Model.Add(filled <= capacity);
    }

    // A job is late wherever even the first possible end is too late for it.
    private void BoundLate(int j)
    {
        var anywhere = false;
        for (var r = 0; r < _oven.Jobs.Length; r++)
        {
            if (_join[r, j] is not { } join)
            {
                continue;
            }

            var machines = _oven.Jobs[j].Machines.Where(m => _on[r, m] is not null).ToList();
            var hopeless = machines.Where(m => FirstEnd(r, j, m) > _oven.Jobs[j].Due).ToList();
            anywhere |= hopeless.Count < machines.Count;
            if (hopeless.Count == machines.Count)
            {
                Model.AddImplication(join, _late[j]);
            }
            else
            {
                foreach (var m in hopeless)
                {
                    Model.AddBoolOr([_late[j], join.Not(), _on[r, m]!.Not()]);
                }
            }
        }

        if (!anywhere)
        {
            Model.Add(_late[j] == 1);
        }
    }

    private int FirstEnd(int r, int j, int machine)
    {
        var (named, shifts) = (_oven.Jobs[r], _oven.Machines[machine].Shifts);
        var setup = ShortestSetup(machine, named.Attribute);
        var release = Math.Max(named.Release, _oven.Jobs[j].Release);
        return shifts.Select(s => (End: Math.Max(release, s.Start + setup) + named.MinTime, Last: s.End)).Where(s => s.End <= s.Last)
            .Select(s => s.End).DefaultIfEmpty(int.MaxValue).Min();
    }

    private IEnumerable<int> Predecessors(int machine) =>
        _oven.Jobs.Where(j => j.Machines.Contains(machine)).Select(j => j.Attribute).Append(_oven.Machines[machine].FirstAttribute).Distinct();

    private void Time(int r)
    {
        var (named, horizon) = (_oven.Jobs[r], _oven.Machines.SelectMany(m => m.Shifts).Max(s => s.End));
        _start[r] = Model.NewIntVar(Math.Min(named.Release, horizon), horizon, $"start{r}");
        _from[r] = Model.NewIntVar(0, horizon, $"from{r}");
        Model.Add(_from[r] <= _start[r]);
        for (var m = 0; m < _oven.Machines.Length; m++)
        {
            if (_on[r, m] is { } on)
            {
                var chosen = new List<BoolVar>();
                foreach (var (s, shift) in _oven.Machines[m].Shifts.Index())
                {
                    var lit = Model.NewBoolVar(string.Create(CultureInfo.InvariantCulture, $"shift{r},{m},{s}"));
                    Model.Add(_from[r] >= shift.Start).OnlyEnforceIf(lit);
                    Model.Add(_start[r] <= shift.End - named.MinTime).OnlyEnforceIf(lit);
                    _shifts.Add((lit, r, m, s));
                    chosen.Add(lit);
                }

                Model.Add(LinearExpr.Sum(chosen) == on);
            }
        }

        for (var j = 0; j < _oven.Jobs.Length; j++)
        {
            if (_join[r, j] is { } join)
            {
                Model.Add(_start[r] >= _oven.Jobs[j].Release).OnlyEnforceIf(join);
                Model.Add(_start[r] <= _oven.Jobs[j].Due - named.MinTime).OnlyEnforceIf([join, _late[j].Not()]);
            }
        }
    }

    private void Sequence(int m)
    {
        var circuit = Model.AddCircuit();
        var batches = Enumerable.Range(0, _oven.Jobs.Length).Where(r => _on[r, m] is not null).ToList();
        Arc(-1, -1);
        foreach (var to in batches)
        {
            circuit.AddArc(to + 1, to + 1, _on[to, m]!.Not());
            Arc(to, -1);
            foreach (var from in batches.Where(b => b != to).Prepend(-1))
            {
                var lit = Arc(from, to);
                var (was, now) = (from < 0 ? _oven.Machines[m].FirstAttribute : _oven.Jobs[from].Attribute, _oven.Jobs[to].Attribute);
                Model.Add(_start[to] >= _from[to] + _oven.SetupTime(was, now)).OnlyEnforceIf(lit);
                if (from >= 0)
                {
                    Model.Add(_from[to] >= _start[from] + _oven.Jobs[from].MinTime).OnlyEnforceIf(lit);
                }

                _cost.AddTerm(lit, Changeover(was, now));
            }
        }

        Model.AddNoOverlap(batches.Select(r => Model.NewOptionalFixedSizeIntervalVar(_start[r], _oven.Jobs[r].MinTime, _on[r, m]!, $"stay{r},{m}")));

        BoolVar Arc(int from, int to)
        {
            var lit = Model.NewBoolVar($"arc{m},{from},{to}");
            circuit.AddArc(from + 1, to + 1, lit);
            _arcs.Add((lit, m, from, to));
            return lit;
        }
    }

    // As many changes into an attribute as it has batches, and not more out of it; that they form one sequence is left out.
    private void CountChangeovers(int m)
    {
        var jobs = Enumerable.Range(0, _oven.Jobs.Length).Where(r => _on[r, m] is not null).ToLookup(r => _oven.Jobs[r].Attribute);
        var flow = new IntVar[_oven.Attributes, _oven.Attributes];
        for (var a = 0; a < _oven.Attributes; a++)
        {
            for (var b = 0; b < _oven.Attributes; b++)
            {
                flow[a, b] = Model.NewIntVar(0, jobs[b].Count(), $"flow{m},{a},{b}");
                _cost.AddTerm(flow[a, b], Changeover(a, b));
            }
        }

        for (var a = 0; a < _oven.Attributes; a++)
        {
            var batches = LinearExpr.Sum(jobs[a].Select(r => _on[r, m]!));
            Model.Add(LinearExpr.Sum(Enumerable.Range(0, _oven.Attributes).Select(b => flow[b, a])) == batches);
            Model.Add(LinearExpr.Sum(Enumerable.Range(0, _oven.Attributes).Select(b => flow[a, b])) <= batches + (_oven.Machines[m].FirstAttribute == a ? 1 : 0));
        }
    }

    // Batches with a job in time share what the machines work before that job is due. Stated for some due times only: one for each job says little more.
    private void ShareTimeBeforeDue()
    {
        var (jobs, machines) = (_oven.Jobs.Length, _oven.Machines.Length);
        var dues = _oven.Jobs.Select(j => j.Due).Distinct().Order().ToList();
        var step = Math.Max(1, dues.Count / DueTimes);
        BoolVar?[,]? earlier = null;
        for (var d = step - 1; d < dues.Count; d += step)
        {
            var before = new BoolVar?[jobs, machines];
            for (var r = 0; r < jobs; r++)
            {
                var used = Enumerable.Range(0, machines).Where(m => _on[r, m] is not null).ToList();
                foreach (var m in used)
                {
                    before[r, m] = Model.NewBoolVar($"before{r},{m},{d}");
                    Model.AddImplication(before[r, m]!, _on[r, m]!);
                    if (earlier is not null)
                    {
                        Model.AddImplication(earlier[r, m]!, before[r, m]!);
                    }
                }

                for (var j = 0; j < jobs; j++)
                {
                    if (_join[r, j] is { } join && _oven.Jobs[j].Due <= dues[d])
                    {
                        Model.AddBoolOr(used.Select(m => (ILiteral)before[r, m]!).Append(join.Not()).Append(_late[j]));
                    }
                }
            }

            for (var m = 0; m < machines; m++)
            {
                var taken = LinearExpr.NewBuilder();
                foreach (var r in Enumerable.Range(0, jobs).Where(r => before[r, m] is not null))
                {
                    taken.AddTerm(before[r, m]!, _oven.Jobs[r].MinTime + ShortestSetup(m, _oven.Jobs[r].Attribute));
                }

                Model.Add(taken <= _oven.Machines[m].Shifts.Sum(s => Math.Max(0, Math.Min(s.End, dues[d]) - s.Start)));
            }

            earlier = before;
        }
    }

    private int ShortestSetup(int machine, int attribute) => Predecessors(machine).Min(a => _oven.SetupTime(a, attribute));

    private long Changeover(int from, int to) =>
        (_oven.Weights.SetupTime * _oven.SetupTime(from, to)) + (_oven.Weights.SetupCost * _oven.SetupCost(from, to));
}
