using Google.OrTools.Sat;

namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>A shop as a constraint model: the same rules as <see cref="Timetable"/>, stated instead of followed.</summary>
internal sealed class CpShop
{
    // Weights are real numbers, the solver's are whole.
    private const double WeightScale = 100;

    private readonly Shop _shop;
    private readonly int _horizon;
    private readonly CpCalendar _calendar;
    private readonly IntVar[] _start;
    private readonly IntVar[] _finish;
    private readonly BoolVar[] _lit;
    private readonly List<CpStay>[] _stays;
    private readonly int[] _rank;
    private readonly List<(IntVar Tardy, int Ticket)> _tardy = [];
    private IntVar? _makespan;

    public CpShop(Shop shop, int horizon)
    {
        (_shop, _horizon) = (shop, horizon);
        _calendar = new CpCalendar(shop, horizon);
        (_start, _finish) = (new IntVar[shop.Ops], new IntVar[shop.Ops]);
        _lit = new BoolVar[shop.Ways.Length];
        _rank = new int[shop.Ops];
        _stays = [.. shop.Machines.Select(_ => new List<CpStay>())];
        var facts = new Timetable(shop);
        for (var op = 0; op < shop.Ops; op++)
        {
            if (shop.FrozenStart[op] is not null)
            {
                Fix(op, facts.Start[op], facts.Finish[op]);
            }
            else
            {
                Choose(op);
            }
        }

        for (var op = 0; op < shop.Ops; op++)
        {
            Follow(op);
        }

        for (var m = 0; m < shop.Machines.Length; m++)
        {
            Share(m);
        }

        _calendar.Close(Model);
        Aim();
    }

    public CpModel Model { get; } = new();

    /// <summary>By how much the model's objective is larger than the cost it stands for.</summary>
    public double Scale => _shop.Makespan ? 1 : WeightScale;

    public void Hint(Draft draft)
    {
        Model.ClearHints();
        for (var op = 0; op < _shop.Ops; op++)
        {
            Model.AddHint(_start[op], draft.Start[op]);
            Model.AddHint(_finish[op], draft.Finish[op]);
            for (var w = _shop.FirstWay[op]; w < _shop.FirstWay[op + 1]; w++)
            {
                if (_lit[w] is { } lit)
                {
                    Model.AddHint(lit, w == draft.Way[op]);
                }
            }
        }

        foreach (var (tardy, ticket) in _tardy)
        {
            var end = _shop.Tickets.JobsOf[ticket].Max(j => draft.Finish[_shop.FirstOp[j + 1] - 1]);
            Model.AddHint(tardy, Math.Max(0, end - _shop.Tickets.Due[ticket]));
        }
    }

    /// <summary>Fixes operations where a draft has them.</summary>
    public void Hold(Draft draft, bool[] held)
    {
        var token = new int[_shop.Jobs];
        var leading = draft.Leading(_shop, held);
        for (var i = 0; i < draft.Order.Length; i++)
        {
            var op = _shop.FirstOp[draft.Order[i]] + token[draft.Order[i]]++;
            _rank[op] = i < leading || _shop.FrozenStart[op] is not null ? i : int.MaxValue;
        }

        for (var op = 0; op < _shop.Ops; op++)
        {
            if (held[op])
            {
                Model.Add(_start[op] == draft.Start[op]);
                if (_lit[draft.Way[op]] is { } lit)
                {
                    Model.Add(lit == 1);
                }
            }
        }
    }

    /// <summary>The order and the machines of a solution; its times follow from placing the operations in that order.</summary>
    public (int[] Order, int[] Choice) Read(Func<IntVar, long> value, Func<BoolVar, bool> truth)
    {
        var choice = new int[_shop.Ops];
        for (var op = 0; op < _shop.Ops; op++)
        {
            choice[op] = -1;
            for (var w = _shop.FirstWay[op]; w < _shop.FirstWay[op + 1] && _shop.FirstWay[op + 1] - _shop.FirstWay[op] > 1; w++)
            {
                choice[op] = _lit[w] is { } lit && truth(lit) ? w - _shop.FirstWay[op] : choice[op];
            }
        }

        var starts = _start.Select(s => value(s)).ToArray();
        return ([.. Enumerable.Range(0, _shop.Ops).OrderBy(o => _rank[o]).ThenBy(o => starts[o]).ThenBy(o => o).Select(o => _shop.JobOf[o])], choice);
    }

    private void Fix(int op, int start, int finish)
    {
        ref readonly var way = ref _shop.Ways[_shop.FirstWay[op]];
        (_start[op], _finish[op]) = (Model.NewConstant(start), Model.NewConstant(finish));
        _stays[way.Machine].Add(new CpStay(op, way, Model.NewIntervalVar(_start[op], Model.NewConstant(finish - start), _finish[op], $"f{op}"), null));
    }

    private void Choose(int op)
    {
        var (first, end) = (_shop.FirstWay[op], _shop.FirstWay[op + 1]);
        _start[op] = Model.NewIntVar(_shop.Now, _horizon, $"s{op}");
        _finish[op] = Model.NewIntVar(_shop.Now, _horizon, $"e{op}");
        var lits = new List<BoolVar>();
        for (var w = first; w < end; w++)
        {
            ref readonly var way = ref _shop.Ways[w];
            var lit = end - first > 1 ? Model.NewBoolVar($"w{w}") : null;
            _lit[w] = lit!;
            if (lit is not null)
            {
                lits.Add(lit);
            }

            IntervalVar stay;
            if (_calendar.Plain)
            {
                stay = lit is null
                    ? Model.NewFixedSizeIntervalVar(_start[op], way.Total, $"i{w}")
                    : Model.NewOptionalFixedSizeIntervalVar(_start[op], way.Total, lit, $"i{w}");
                Only(Model.Add(_finish[op] == _start[op] + way.Total), lit);
            }
            else
            {
                stay = Attended(op, w, way, lit);
            }

            _stays[way.Machine].Add(new CpStay(op, way, stay, lit));
        }

        if (lits.Count > 0)
        {
            Model.AddExactlyOne(lits);
        }
    }

    private IntervalVar Attended(int op, int w, in Way way, BoolVar? lit)
    {
        var unload = Model.NewIntVar(_shop.Now, _horizon, $"u{w}");
        Only(Model.Add(unload >= _start[op] + way.Load + way.Run), lit);
        Only(Model.Add(_finish[op] == unload + way.Unload), lit);
        _calendar.Attend(Model, _start[op], way.Load, lit, $"l{w}");
        _calendar.Attend(Model, unload, way.Unload, lit, $"u{w}");
        var size = Model.NewIntVar(way.Total, _horizon, $"z{w}");
        return lit is null
            ? Model.NewIntervalVar(_start[op], size, _finish[op], $"i{w}")
            : Model.NewOptionalIntervalVar(_start[op], size, _finish[op], lit, $"i{w}");
    }

    private void Follow(int op)
    {
        var job = _shop.JobOf[op];
        if (op == _shop.FirstOp[job])
        {
            if (_shop.FrozenStart[op] is null)
            {
                Model.Add(_start[op] >= _shop.Release[job]);
            }

            return;
        }

        Model.Add(_start[op] >= _finish[op - 1] + _shop.MinWait[op - 1]);
        if (_shop.Linked(op - 1) && _shop.FrozenStart[op - 1] is null)
        {
            Model.Add(_start[op] <= _finish[op - 1] + _shop.MaxWait[op - 1]);
        }
    }

    private void Share(int m)
    {
        var (machine, stays) = (_shop.Machines[m], _stays[m]);
        if (machine.Kind == EquipmentKind.Line)
        {
            CpLine.Add(Model, _shop, m, stays, _start, _finish, _calendar, _horizon);
            return;
        }

        var down = _shop.Down[m].Select(d => Fixed(Math.Max(_shop.Now, d.From), d.To)).ToList();
        if (machine.Units == 1)
        {
            // What runs already may overlap, and is a fact: only what is still to come must keep apart from it.
            Model.AddNoOverlap([.. Facts(stays), .. stays.Where(s => !s.IsFact).Select(s => s.Stay), .. down]);
            return;
        }

        var cumulative = Model.AddCumulative(machine.Units);
        foreach (var stay in stays.Where(s => _shop.FrozenStart[s.Op] is null))
        {
            cumulative.AddDemand(stay.Stay, 1);
        }

        foreach (var unit in _facts ??= Units())
        {
            if (unit.Unit >= machine.FirstUnit && unit.Unit < machine.FirstUnit + machine.Units)
            {
                cumulative.AddDemand(Fixed(unit.From, unit.To), 1);
            }
        }
    }

    private List<(int Unit, int From, int To)>? _facts;

    private List<(int Unit, int From, int To)> Units()
    {
        var table = new Timetable(_shop);
        var all = new List<(int, int, int)>();
        for (var u = 0; u < _shop.Units; u++)
        {
            for (var i = 0; i < table.Unit(u).Count; i++)
            {
                all.Add((u, table.Unit(u).From(i), table.Unit(u).To(i)));
            }
        }

        return all;
    }

    private IEnumerable<IntervalVar> Facts(List<CpStay> stays)
    {
        var frozen = stays.Where(s => _shop.FrozenStart[s.Op] is not null).Select(s => s.Op).ToList();
        foreach (var stay in stays)
        {
            stay.IsFact = frozen.Contains(stay.Op);
        }

        if (frozen.Count > 0)
        {
            var table = new Timetable(_shop);
            yield return Fixed(frozen.Min(o => table.Start[o]), frozen.Max(o => table.Finish[o]));
        }
    }

    private IntervalVar Fixed(int from, int to) => Model.NewFixedSizeIntervalVar(Model.NewConstant(from), to - from, $"d{from}");

    private void Aim()
    {
        var lasts = Enumerable.Range(0, _shop.Jobs).Select(j => _finish[_shop.FirstOp[j + 1] - 1]).ToList();
        if (_shop.Makespan)
        {
            _makespan = Model.NewIntVar(_shop.Now, _horizon, "end");
            Model.AddMaxEquality(_makespan, lasts);
            Model.Minimize(_makespan);
            return;
        }

        var cost = LinearExpr.NewBuilder();
        for (var t = 0; t < _shop.Tickets.Count; t++)
        {
            var tardy = Model.NewIntVar(0, Math.Max(0, _horizon - _shop.Tickets.Due[t]), $"t{t}");
            _tardy.Add((tardy, t));
            foreach (var job in _shop.Tickets.JobsOf[t])
            {
                Model.Add(tardy >= lasts[job] - _shop.Tickets.Due[t]);
            }

            cost.AddTerm(tardy, (long)Math.Round(_shop.Tickets.Weight[t] * WeightScale));
        }

        Model.Minimize(cost);
    }

    private static void Only(Constraint constraint, BoolVar? lit)
    {
        if (lit is not null)
        {
            constraint.OnlyEnforceIf(lit);
        }
    }
}

/// <summary>An operation's stay on a machine that it may use.</summary>
internal sealed record CpStay(int Op, Way Way, IntervalVar Stay, BoolVar? Lit)
{
    public bool IsFact { get; set; }
}
