namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>Finds what makes a ticket late: goes back from its last operation over what each one waited for.</summary>
internal sealed class Blame(Shop shop, Placing placing, Random random)
{
    private readonly List<(int Late, int Blocker)> _waits = [];
    private readonly double[] _share = new double[shop.Tickets.Count];
    private bool _known;

    /// <summary>The plan has changed.</summary>
    public void Forget() => _known = false;

    /// <summary>An operation that waited on its machine, and the one that it waited for; -1 when nothing waited.</summary>
    public (int Late, int Blocker) Pick()
    {
        if (!_known)
        {
            Weigh();
            _known = true;
        }

        var ticket = PickTicket();
        _waits.Clear();
        var table = placing.Table;
        var last = -1;
        foreach (var job in shop.Tickets.JobsOf[ticket])
        {
            var op = shop.FirstOp[job + 1] - 1;
            last = last < 0 || table.Finish[op] > table.Finish[last] ? op : last;
        }

        Trace(last);
        return _waits.Count == 0 ? (-1, -1) : _waits[random.Next(_waits.Count)];
    }

    private void Weigh()
    {
        var total = 0.0;
        var tickets = shop.Tickets;
        for (var t = 0; t < tickets.Count; t++)
        {
            var end = placing.TicketEnd(t);
            var late = shop.Makespan ? Math.Pow(end, 8) : tickets.Weight[t] * Math.Max(0, end - tickets.Due[t]);
            total += _share[t] = late;
        }

        for (var t = 0; t < tickets.Count; t++)
        {
            // Nobody is late: then every ticket is worth finishing sooner.
            _share[t] = (t == 0 ? 0 : _share[t - 1]) + (total > 0 ? _share[t] + (total * 0.02 / tickets.Count) : tickets.Weight[t]);
        }
    }

    private int PickTicket()
    {
        var at = random.NextDouble() * _share[^1];
        var found = Array.BinarySearch(_share, at);
        return Math.Min(_share.Length - 1, found < 0 ? ~found : found);
    }

    private void Trace(int op)
    {
        var table = placing.Table;
        for (var steps = 0; op >= 0 && steps < 400; steps++)
        {
            var first = shop.FirstOp[shop.JobOf[op]];
            if (shop.FrozenStart[op] is not null)
            {
                return;
            }

            var ready = op == first ? shop.Release[shop.JobOf[op]] : Math.Max(shop.Now, table.Finish[op - 1] + shop.MinWait[op - 1]);
            if (table.Start[op] > ready && BlockerOf(op, ready) is var blocker and >= 0)
            {
                if (shop.FrozenStart[blocker] is not null)
                {
                    return;
                }

                _waits.Add((op, blocker));
                op = blocker;
                continue;
            }

            op = op == first ? -1 : op - 1;
        }
    }

    private int BlockerOf(int op, int ready)
    {
        var table = placing.Table;
        if (table.Before[op] >= 0)
        {
            return table.Before[op];
        }

        if (shop.Machines[shop.Ways[table.WayOf[op]].Machine].Kind == EquipmentKind.Line)
        {
            return -1;
        }

        var busy = table.Unit(table.UnitOf[op]);
        var i = busy.FirstEndingAfter(table.Start[op] - 1);
        // The booking that ends at this start or before; an operation of no length has none of its own.
        while (i < busy.Count && busy.To(i) > table.Start[op])
        {
            i--;
            if (i < 0)
            {
                return -1;
            }
        }

        i = Math.Min(i, busy.Count - 1);
        return i >= 0 && busy.To(i) > ready && busy.Op(i) != op ? busy.Op(i) : -1;
    }
}
