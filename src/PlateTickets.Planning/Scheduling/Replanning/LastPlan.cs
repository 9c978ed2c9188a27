using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling.Replanning;

/// <summary>What a new shop takes over from the last plan: an order of its operations, and which of them stay where they are.</summary>
internal sealed class LastPlan
{
    private readonly Shop _shop;
    private readonly PlannedStage?[] _was;
    private readonly int[] _choice;

    public LastPlan(Shop shop, Plan last, TimeSpan holdFor)
    {
        _shop = shop;
        var planned = last.Stages.ToDictionary(s => s.StageId);
        (_was, _choice, Held) = (new PlannedStage?[shop.Ops], new int[shop.Ops], new bool[shop.Ops]);
        Array.Fill(_choice, -1);
        var until = shop.Request.NowUtc + holdFor;
        for (var op = 0; op < shop.Ops; op++)
        {
            _was[op] = planned.GetValueOrDefault(shop.StageOf(op).Id);
            if (_was[op] is { } was && shop.FrozenStart[op] is null && was.StartUtc <= until && Leads(op) && WayOn(op, was.EquipmentId) is var way and >= 0 && !Down(op, way))
            {
                (Held[op], _choice[op]) = (true, way);
            }
        }
    }

    public bool[] Held { get; }

    /// <summary>The last plan's order; what it did not know comes where the dispatcher puts it.</summary>
    public Draft? CarriedOn(Placing placing, Draft dispatched) => Build(placing, op => _was[op] is { } was
        ? (was.StartUtc - _shop.Origin).TotalSeconds
        : dispatched.Start[op]);

    /// <summary>The dispatcher's order behind what is held.</summary>
    public Draft? HeldFirst(Placing placing, Draft dispatched) => Build(placing, op => dispatched.Start[op]);

    private Draft? Build(Placing placing, Func<int, double> start)
    {
        int[] order = [.. Enumerable.Range(0, _shop.Ops)
            .OrderBy(op => _shop.FrozenStart[op] is not null ? 0 : Held[op] ? 1 : 2)
            .ThenBy(op => Held[op] ? (_was[op]!.StartUtc - _shop.Origin).TotalSeconds : start(op))
            .ThenBy(op => op)
            .Select(op => _shop.JobOf[op])];
        return placing.Build(order, _choice, double.MaxValue) ? placing.Finish(order, [.. _choice]) : null;
    }

    // Held stages are placed before all others, so the stages before them must be running or held too.
    private bool Leads(int op) => op == _shop.FirstOp[_shop.JobOf[op]] || _shop.FrozenStart[op - 1] is not null || Held[op - 1];

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

    // A machine that went down lets go of what was about to start there.
    private bool Down(int op, int way) =>
        _shop.Down[_shop.Ways[_shop.FirstWay[op] + way].Machine].Any(d => d.From <= _shop.Up(_was[op]!.FinishUtc) && d.To > _shop.Now);
}
