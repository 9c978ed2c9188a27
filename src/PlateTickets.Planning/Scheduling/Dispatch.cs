using PlateTickets.Planning.Scheduling.Engine;

namespace PlateTickets.Planning.Scheduling;

/// <summary>One run of the dispatcher. A sheet has one next stage at a time; its best place is kept until the machine of that place is booked.</summary>
internal sealed class Dispatch
{
    private readonly Shop _shop;
    private readonly Placing _placing;
    private readonly Offers _offers;
    private readonly List<int> _order;

    public Dispatch(Shop shop)
    {
        (_shop, _placing, _order) = (shop, new Placing(shop), new List<int>(shop.Ops));
        _placing.Table.OnlyBehind = true;
        _offers = new Offers(shop, _placing.Table);
    }

    public Draft Run()
    {
        var table = _placing.Table;
        var waiting = new List<SheetQueue>(_shop.Jobs);
        for (var j = 0; j < _shop.Jobs; j++)
        {
            var sheet = new SheetQueue(_shop, j);
            if (_shop.FrozenStart[sheet.Op] is not null)
            {
                _order.Add(j);
                sheet.Advance(sheet.Op, table.Finish[sheet.Op]);
            }

            if (!sheet.Done)
            {
                Look(sheet);
                waiting.Add(sheet);
            }
        }

        while (waiting.Count > 0)
        {
            var next = DispatchRule.Next(waiting);
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

        return _placing.Finish([.. _order], choice: null);
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
