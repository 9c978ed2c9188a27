using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling.Replanning;

/// <summary>What a new shop takes over from the last plan: an order of its operations, and which of them stay where they are.</summary>
internal sealed class LastPlan
{
    private readonly Shop _shop;
    private readonly PlannedStage?[] _was;
    private readonly int[] _way;
    private readonly IReadOnlySet<int> _free;

    /// <summary>What is held is also kept in the shop, where every planner finds it.</summary>
    public LastPlan(Shop shop, Plan last, TimeSpan holdFor)
    {
        (_shop, _free) = (shop, last.OnAnyMachine);
        var planned = last.Stages.ToDictionary(s => s.StageId);
        (_was, _way, Held) = (new PlannedStage?[shop.Ops], new int[shop.Ops], new bool[shop.Ops]);
        for (var op = 0; op < shop.Ops; op++)
        {
            _was[op] = planned.GetValueOrDefault(shop.StageOf(op).Id);
            _way[op] = _was[op] is { } was ? WayOn(op, was.EquipmentId) : -1;
            shop.Slot[op] = _way[op] >= 0 ? _was[op]!.Slot : -1;
        }

        var until = shop.Request.NowUtc + holdFor;
        for (var op = 0; op < shop.Ops; op++)
        {
            if (!Held[op] && Stays(op) && _was[op]!.StartUtc <= until && Leads(op))
            {
                Hold(op);
            }
        }

        Order = last.Order.Select((id, i) => (id, i)).ToDictionary(o => o.id, o => o.i);
    }

    public bool[] Held { get; }

    private Dictionary<int, int> Order { get; }

    /// <summary>
    /// The last plan's order on the last plan's machines: the same plan again, if nothing has happened. What it did not know
    /// comes where the dispatcher puts it.
    /// </summary>
    public Draft? AsItWas(Placing placing, Draft dispatched)
    {
        var place = LastOrder(dispatched);
        var draft = Build(placing, place, op => _way[op], heldFirst: false);
        return draft is not null && Enumerable.Range(0, _shop.Ops).All(op => !Held[op] || StaysInTime(draft, op))
            ? draft
            : Build(placing, place, op => _way[op], heldFirst: true);
    }

    /// <summary>
    /// The last plan's order with the same freedom of machines as then, which is the same plan again where the one that holds every stage to its machine
    /// is not. Null where none was free, or where what is held would not stay.
    /// </summary>
    public Draft? AsItWasChosen(Placing placing, Draft dispatched)
    {
        if (_free.Count == 0)
        {
            return null;
        }

        var draft = Build(placing, LastOrder(dispatched), op => _free.Contains(_shop.StageOf(op).Id) ? -1 : _way[op], heldFirst: false);
        return draft is not null && Enumerable.Range(0, _shop.Ops).All(op => !Held[op] || (StaysInTime(draft, op) && draft.Way[op] - _shop.FirstWay[op] == _way[op])) ? draft : null;
    }

    /// <summary>The last plan's order behind what is held, on whichever machine finishes first.</summary>
    public Draft? InItsOrder(Placing placing, Draft dispatched) => Build(placing, LastOrder(dispatched), op => Held[op] ? _way[op] : -1, heldFirst: true);

    /// <summary>The dispatcher's order behind what is held.</summary>
    public Draft? HeldFirst(Placing placing, Draft dispatched) => Build(placing, OrderOf(dispatched), op => Held[op] ? _way[op] : -1, heldFirst: true);

    private bool StaysInTime(Draft draft, int op) => draft.Start[op] <= Math.Max(_shop.Now, _shop.NotBefore[op]);

    private static int[] Ops(Shop shop, int[] order)
    {
        var token = new int[shop.Jobs];
        return [.. order.Select(job => shop.FirstOp[job] + token[job]++)];
    }

    private int[] OrderOf(Draft dispatched)
    {
        var place = new int[_shop.Ops];
        var ops = Ops(_shop, dispatched.Order);
        for (var i = 0; i < ops.Length; i++)
        {
            place[ops[i]] = i;
        }

        return place;
    }

    // New ones come before the first of the old ones that started later than the dispatcher starts them.
    private int[] LastOrder(Draft dispatched)
    {
        int[] known = [.. Enumerable.Range(0, _shop.Ops).Where(op => _was[op] is not null)
            .OrderBy(op => Order.GetValueOrDefault(_was[op]!.StageId)).ThenBy(op => _was[op]!.StartUtc).ThenBy(op => op)];
        var latest = new int[known.Length];
        var place = new int[_shop.Ops];
        for (var i = 0; i < known.Length; i++)
        {
            place[known[i]] = (2 * i) + 1;
            latest[i] = Math.Max(i == 0 ? 0 : latest[i - 1], _shop.Up(_was[known[i]]!.StartUtc));
        }

        for (var op = 0; op < _shop.Ops; op++)
        {
            if (_was[op] is null)
            {
                var at = Array.BinarySearch(latest, dispatched.Start[op]);
                for (at = at < 0 ? ~at : at; at > 0 && latest[at - 1] == dispatched.Start[op];)
                {
                    at--;
                }

                place[op] = 2 * at;
            }
        }

        return place;
    }

    // New stages that share a place follow each other sheet by sheet.
    private Draft? Build(Placing placing, int[] place, Func<int, int> way, bool heldFirst)
    {
        int[] choice = [.. Enumerable.Range(0, _shop.Ops).Select(op => _shop.FrozenStart[op] is null ? way(op) : -1)];
        int[] order = [.. Enumerable.Range(0, _shop.Ops)
            .OrderBy(op => _shop.FrozenStart[op] is not null ? 0 : heldFirst && Held[op] ? 1 : 2)
            .ThenBy(op => heldFirst && Held[op] ? _shop.NotBefore[op] : 0)
            .ThenBy(op => place[op])
            .ThenBy(op => op)
            .Select(op => _shop.JobOf[op])];
        return placing.Build(order, choice, double.MaxValue) ? placing.Finish(order, choice) : null;
    }

    // Held stages may have to be placed before all others, so the stages before them must be running or held too.
    private bool Leads(int op) => op == _shop.FirstOp[_shop.JobOf[op]] || _shop.FrozenStart[op - 1] is not null || Held[op - 1];

    // A machine that went down lets go of what was about to start there, or should follow soon after it.
    private bool Stays(int op) =>
        _shop.FrozenStart[op] is null && _way[op] >= 0 && !Down(op) && (!_shop.Linked(op) || Stays(op + 1));

    private void Hold(int op)
    {
        var was = _was[op]!;
        Held[op] = true;
        _shop.Keep(op, _shop.Up(was.StartUtc), _shop.Up(was.FinishUtc) - _shop.Ways[_shop.FirstWay[op] + _way[op]].Unload);
        if (_shop.Linked(op))
        {
            Hold(op + 1);
        }
    }

    private bool Down(int op) => _shop.Down[_shop.Ways[_shop.FirstWay[op] + _way[op]].Machine]
        .Any(d => d.From < _shop.Up(_was[op]!.FinishUtc) && d.To > Math.Max(_shop.Now, _shop.Up(_was[op]!.StartUtc)));

    private int WayOn(int op, int equipmentId)
    {
        for (var w = _shop.FirstWay[op]; w < _shop.FirstWay[op + 1]; w++)
        {
            if (_shop.Request.Equipment[_shop.Ways[w].Machine].Id == equipmentId)
            {
                return w - _shop.FirstWay[op];
            }
        }

        return -1;
    }
}
