using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling;

/// <summary>One run of the dispatcher. A sheet has one next stage at a time; its best place is kept until the machine of that place is booked.</summary>
internal sealed class Dispatch
{
    // More sheets than this take so long to dispatch that once must do.
    private const int MostByTwoRules = 600;

    private readonly Shop _shop;
    private readonly Placing _placing;
    private readonly Offers _offers;
    private readonly List<int> _order;
    private readonly ApparentUrgency? _rule;
    private readonly double _mean;

    /// <param name="shop">What is planned.</param>
    /// <param name="rule">Which sheet goes first; null for the usual rule.</param>
    public Dispatch(Shop shop, ApparentUrgency? rule = null)
    {
        (_rule, _mean) = (rule, shop.Ways.Length == 0 ? 1 : Math.Max(1, shop.Ways.Average(w => w.Total)));
        (_shop, _placing, _order) = (shop, new Placing(shop), new List<int>(shop.Ops));
        _placing.Table.OnlyBehind = true;
        _offers = new Offers(shop, _placing.Table);
    }

    /// <summary>By the usual rule; where somebody is late by that one, also by apparent urgency. The better plan of the two.</summary>
    public static Draft Best(Shop shop)
    {
        var usual = new Dispatch(shop).Run();
        return usual.Cost.Main > 0 && !shop.Makespan && shop.Jobs <= MostByTwoRules && new Dispatch(shop, ApparentUrgency.Usual).TryRun(usual, new bool[shop.Ops]) is { } other && other.Cost < usual.Cost ? other : usual;
    }

    /// <summary>Another plan than one that there is already.</summary>
    /// <param name="from">The plan that there is: its held operations lead the order, as they are.</param>
    /// <param name="held">Which operations are held.</param>
    /// <returns>Null when what is held does not fit, or the calendar ends before everything is placed.</returns>
    public Draft? TryRun(Draft from, bool[] held)
    {
        var sheets = Begin();
        var choice = new int[_shop.Ops];
        Array.Fill(choice, -1);
        var token = new int[_shop.Jobs];
        _placing.Table.OnlyBehind = false;
        foreach (var job in from.Order.Take(from.Leading(_shop, held)))
        {
            var (sheet, op) = (sheets[job], _shop.FirstOp[job] + token[job]++);
            choice[op] = from.Choice[op];
            if (op < sheet.Op)
            {
                continue;
            }

            var spot = _placing.Table.Earliest(op, _placing.Ready(op), choice[op]);
            var placed = spot.Fits ? _placing.Place(op, spot, from.Choice) : -1;
            if (placed < 0)
            {
                return null;
            }

            for (var o = op; o <= placed; o++)
            {
                _order.Add(job);
                choice[o] = from.Choice[o];
            }

            sheet.Advance(placed, _placing.Table.Finish[placed]);
        }

        _placing.Table.OnlyBehind = true;
        try
        {
            return Run(sheets, choice);
        }
        catch (PlanException)
        {
            // The plan that there is already has found room for everything.
            return null;
        }
    }

    public Draft Run() => Run(Begin(), choice: null);

    private SheetQueue[] Begin()
    {
        var sheets = new SheetQueue[_shop.Jobs];
        for (var j = 0; j < _shop.Jobs; j++)
        {
            var sheet = sheets[j] = new SheetQueue(_shop, j);
            if (_shop.FrozenStart[sheet.Op] is not null)
            {
                _order.Add(j);
                sheet.Advance(sheet.Op, _placing.Table.Finish[sheet.Op]);
            }
        }

        return sheets;
    }

    private Draft Run(SheetQueue[] sheets, int[]? choice)
    {
        var table = _placing.Table;
        var waiting = new List<SheetQueue>(_shop.Jobs);
        foreach (var sheet in sheets.Where(s => !s.Done))
        {
            Look(sheet);
            waiting.Add(sheet);
        }

        while (waiting.Count > 0)
        {
            var next = _rule is null ? DispatchRule.Next(waiting) : DispatchRule.Next(waiting, _rule, _mean);
            var machine = next.Machine;
            if (table.CountsPeople && Moved(next))
            {
                continue;
            }

            var placed = _placing.Place(next.Op, next.Best);
            _offers.Forget();
            if (placed < 0)
            {
                throw Unplaced.Because(_shop, next.Op + 1);
            }

            _order.AddRange(Enumerable.Repeat(_shop.JobOf[next.Op], placed - next.Op + 1));
            var linked = placed > next.Op;
            next.Advance(placed, table.Finish[placed]);
            if (next.Done)
            {
                waiting.Remove(next);
            }
            else
            {
                Look(next);
            }

            // What other machines offer has not changed, and this one offers nothing earlier than before.
            foreach (var sheet in waiting)
            {
                if (sheet != next && (linked || sheet.Machine == machine))
                {
                    Look(sheet);
                }
            }
        }

        return _placing.Finish([.. _order], choice);
    }

    // Somebody who would have loaded this sheet may have been booked for another machine meanwhile.
    private bool Moved(SheetQueue sheet)
    {
        var before = sheet.Best;
        Look(sheet);
        return sheet.Best.Start > before.Start;
    }

    private void Look(SheetQueue sheet)
    {
        var best = _offers.Earliest(sheet.Op, sheet.Ready);
        if (!best.Fits)
        {
            throw Unplaced.Because(_shop, sheet.Op);
        }

        sheet.Take(best);
    }
}
