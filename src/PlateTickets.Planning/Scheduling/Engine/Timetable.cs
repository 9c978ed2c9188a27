namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>Where an operation could go.</summary>
/// <param name="Gap">How long the unit is idle before it.</param>
internal readonly record struct Spot(int Way, int Unit, int Start, int Unload, int Finish, int Loader, int Unloader, int Gap)
{
    public static readonly Spot None = new(-1, -1, -1, -1, int.MaxValue, -1, -1, int.MaxValue);

    public bool Fits => Way >= 0;
}

/// <summary>
/// A plan being made: what every unit, line and operator is booked with. Each operation is placed at the earliest time that is
/// still free, also in a gap between bookings; only a line is booked behind what entered it last.
/// </summary>
internal sealed class Timetable
{
    private readonly Shop _shop;
    private readonly Busy[] _units;
    private readonly Busy[] _solid;
    private readonly int[] _shortest;
    private readonly Line[] _lines;
    private readonly People _people;
    private readonly Timetable? _facts;
    private readonly int[] _lastStart;

    /// <summary>With the downtimes and the stages that run already.</summary>
    public Timetable(Shop shop)
        : this(shop, facts: null)
    {
        for (var m = 0; m < shop.Machines.Length; m++)
        {
            var machine = shop.Machines[m];
            foreach (var (from, to) in shop.Down[m])
            {
                for (var u = 0; u < machine.Units; u++)
                {
                    _units[machine.FirstUnit + u].Cover(from, to, -1);
                }
            }
        }

        // Who loads now is a fact; what is unloaded later is planned around all of those.
        int[] frozen = [.. Enumerable.Range(0, shop.Ops).Where(o => shop.FrozenStart[o] is not null).OrderBy(o => shop.FrozenStart[o]).ThenBy(o => o)];
        foreach (var op in frozen)
        {
            var (start, load) = (shop.FrozenStart[op]!.Value, shop.Ways[shop.FirstWay[op]].Load);
            if (start + load > shop.Now)
            {
                _people.BookAnyone(start, load);
            }
        }

        foreach (var op in frozen)
        {
            Freeze(op);
        }

        for (var u = 0; u < _units.Length; u++)
        {
            _units[u].CopyTo(_solid[u]);
        }

        _facts = new Timetable(shop, facts: null);
        Copy(this, _facts);
    }

    private Timetable(Shop shop, Timetable? facts)
    {
        (_shop, _facts) = (shop, facts);
        _units = [.. Enumerable.Range(0, shop.Units).Select(_ => new Busy())];
        _solid = [.. _units.Select(_ => new Busy())];
        _shortest = Shortest(shop);
        _lines = [.. shop.Machines.Select(_ => Line.New)];
        _people = new People(shop);
        _lastStart = new int[shop.Units];
        (Start, Finish, WayOf, UnitOf, Before) = (new int[shop.Ops], new int[shop.Ops], new int[shop.Ops], new int[shop.Ops], new int[shop.Ops]);
    }

    public int[] Start { get; }

    public int[] Finish { get; }

    public int[] WayOf { get; }

    public int[] UnitOf { get; }

    /// <summary>In a line: the operation that entered before; -1 elsewhere.</summary>
    public int[] Before { get; }

    /// <summary>Leave gaps before a unit's newest booking alone, for a caller that places by start times and would only look in vain.</summary>
    public bool OnlyBehind { get; set; }

    public bool CountsPeople => _people.Counted;

    public int Changeovers => _lines.Sum(l => l.Changeovers);

    public Busy Unit(int unit) => _units[unit];

    /// <summary>Back to downtimes and running stages.</summary>
    public void Clear()
    {
        Copy(_facts!, this);
        Array.Clear(_lastStart);
    }

    /// <summary>The earliest finish of an operation that may not start before <paramref name="ready"/>; of equal ones the earlier start, then the first way.</summary>
    /// <param name="only">The one way to look at, counted from the operation's first; -1 for all.</param>
    public Spot Earliest(int op, int ready, int only)
    {
        var best = Spot.None;
        var (first, end) = (_shop.FirstWay[op], _shop.FirstWay[op + 1]);
        if (only >= 0 && first + only < end)
        {
            (first, end) = (first + only, first + only + 1);
        }

        for (var w = first; w < end; w++)
        {
            ref readonly var way = ref _shop.Ways[w];
            ref readonly var machine = ref _shop.Machines[way.Machine];
            if (machine.Kind == EquipmentKind.Line)
            {
                TryLine(op, w, way, ready, ref best);
                continue;
            }

            for (var u = machine.FirstUnit; u < machine.FirstUnit + machine.Units; u++)
            {
                TryUnit(op, u, w, way, ready, ref best);
            }

            TryAgain(op, w, way, machine, ready, ref best);
        }

        return best;
    }

    /// <summary>While it is placed <see cref="OnlyBehind"/>, an operation that is ready at this instant or sooner is offered the same.</summary>
    public int IdleSince(int op)
    {
        var since = int.MaxValue;
        for (var w = _shop.FirstWay[op]; w < _shop.FirstWay[op + 1]; w++)
        {
            ref readonly var way = ref _shop.Ways[w];
            ref readonly var machine = ref _shop.Machines[way.Machine];
            if (machine.Kind == EquipmentKind.Line)
            {
                // A negative offer is none, whenever the operation is ready.
                var offer = _lines[way.Machine].Offers(_shop.Sheets[_shop.JobOf[op]].RecipeId, way.Load, int.MinValue);
                since = offer == -1 ? since : Math.Min(since, offer);
                continue;
            }

            for (var u = machine.FirstUnit; u < machine.FirstUnit + machine.Units; u++)
            {
                since = Math.Min(since, _lastStart[u]);
            }
        }

        return since;
    }

    public void Book(int op, in Spot spot)
    {
        ref readonly var way = ref _shop.Ways[spot.Way];
        var machine = _shop.Machines[way.Machine];
        if (machine.Kind == EquipmentKind.Line)
        {
            ref var line = ref _lines[way.Machine];
            Before[op] = line.LastOp;
            line.Book(op, _shop.Sheets[_shop.JobOf[op]].RecipeId, way, spot.Start, _shop.Now, machine.Changeover, _shop.Working);
        }
        else
        {
            Before[op] = -1;
            _units[spot.Unit].Add(spot.Start, spot.Finish, op);
            _solid[spot.Unit].AddSolid(spot.Start, spot.Finish, _shortest[way.Machine]);
            _lastStart[spot.Unit] = Math.Max(_lastStart[spot.Unit], spot.Start);
        }

        _people.Book(spot.Loader, spot.Start, way.Load);
        _people.Book(spot.Unloader, spot.Unload, way.Unload);
        (Start[op], Finish[op], WayOf[op], UnitOf[op]) = (spot.Start, spot.Finish, spot.Way, spot.Unit);
    }

    private static int[] Shortest(Shop shop)
    {
        var shortest = new int[shop.Machines.Length];
        foreach (ref readonly var way in shop.Ways.AsSpan())
        {
            ref var least = ref shortest[way.Machine];
            least = least == 0 ? Math.Max(1, way.Total) : Math.Min(least, Math.Max(1, way.Total));
        }

        return shortest;
    }

    private static void Copy(Timetable from, Timetable to)
    {
        for (var u = 0; u < from._units.Length; u++)
        {
            from._units[u].CopyTo(to._units[u]);
            from._solid[u].CopyTo(to._solid[u]);
        }

        Array.Copy(from._lines, to._lines, from._lines.Length);
        to._people.Clear(from._people);
        // Only running stages are written here; all others are written when they are placed.
        for (var j = 0; j < from._shop.Jobs; j++)
        {
            var op = from._shop.FirstOp[j];
            if (from._shop.FrozenStart[op] is not null)
            {
                (to.Start[op], to.Finish[op], to.WayOf[op], to.UnitOf[op], to.Before[op]) = (from.Start[op], from.Finish[op], from.WayOf[op], from.UnitOf[op], from.Before[op]);
            }
        }
    }

    private void TryUnit(int op, int unit, int w, in Way way, int ready, ref Spot best)
    {
        var busy = _solid[unit];
        var at = OnlyBehind ? Math.Max(ready, _lastStart[unit]) : ready;
        for (var i = busy.FirstEndingAfter(at); ; i++)
        {
            var gapEnd = i < busy.Count ? busy.From(i) : int.MaxValue;
            if (at + way.Total <= gapEnd)
            {
                var start = _people.Earliest(at, way.Load, out var loader);
                if (start < 0 || start + way.Total > best.Finish)
                {
                    return;
                }

                var unload = _people.Earliest(Math.Max(start + way.Load + way.Run, _shop.NotUnloadedBefore[op]), way.Unload, out var unloader);
                if (unload < 0)
                {
                    return;
                }

                var finish = unload + way.Unload;
                if (finish <= gapEnd)
                {
                    Take(new Spot(w, unit, start, unload, finish, loader, unloader, i == 0 ? start : start - busy.To(i - 1)), ref best);
                    return;
                }
            }

            if (i >= busy.Count)
            {
                return;
            }

            at = Math.Max(at, busy.To(i));
            if (at + way.Total > best.Finish)
            {
                return;
            }
        }
    }

    // Of slots that are as good as each other the one that it had before.
    private void TryAgain(int op, int w, in Way way, in ShopMachine machine, int ready, ref Spot best)
    {
        var unit = machine.FirstUnit + _shop.Slot[op];
        if (_shop.Slot[op] < 0 || _shop.Slot[op] >= machine.Units || best.Way != w || best.Unit == unit)
        {
            return;
        }

        var before = Spot.None;
        TryUnit(op, unit, w, way, ready, ref before);
        best = before.Fits && before.Start == best.Start && before.Finish == best.Finish ? before : best;
    }

    private void TryLine(int op, int w, in Way way, int ready, ref Spot best)
    {
        var down = _units[_shop.Machines[way.Machine].FirstUnit];
        var at = _lines[way.Machine].Offers(_shop.Sheets[_shop.JobOf[op]].RecipeId, way.Load, ready);
        while (at >= 0)
        {
            var start = _people.Earliest(at, way.Load, out var loader);
            var unloader = -1;
            var unload = start < 0 ? -1 : _people.Earliest(Math.Max(start + way.Load + way.Run, _shop.NotUnloadedBefore[op]), way.Unload, out unloader);
            if (unload < 0)
            {
                return;
            }

            var finish = unload + way.Unload;
            var i = down.FirstEndingAfter(start);
            if (i >= down.Count || finish <= down.From(i))
            {
                Take(new Spot(w, _shop.Machines[way.Machine].FirstUnit, start, unload, finish, loader, unloader, 0), ref best);
                return;
            }

            at = down.To(i);
        }
    }

    private static void Take(in Spot spot, ref Spot best)
    {
        // Of two slots the one that is idle for less time: the other may still serve an earlier sheet.
        if (spot.Finish < best.Finish
            || (spot.Finish == best.Finish && (spot.Start < best.Start || (spot.Start == best.Start && spot.Way == best.Way && spot.Gap < best.Gap))))
        {
            best = spot;
        }
    }

    // A stage that has begun keeps machine and start. More sheets may have been recorded in a machine than it takes: then the
    // machine is free once enough of them are out.
    private void Freeze(int op)
    {
        var w = _shop.FirstWay[op];
        ref readonly var way = ref _shop.Ways[w];
        var (machine, start) = (_shop.Machines[way.Machine], _shop.FrozenStart[op]!.Value);
        var unload = ExpectedUnload(way, start);
        if (unload < 0)
        {
            throw Unplaced.Because(_shop, op);
        }

        var finish = unload + way.Unload;
        var unit = machine.FirstUnit;
        if (machine.Kind == EquipmentKind.Line)
        {
            Before[op] = _lines[way.Machine].LastOp;
            _lines[way.Machine].Book(op, _shop.Sheets[_shop.JobOf[op]].RecipeId, way, start, _shop.Now, machine.Changeover, _shop.Working);
        }
        else
        {
            unit += Math.Clamp(_shop.Slot[op], 0, machine.Units - 1);
            for (var u = machine.FirstUnit; u < machine.FirstUnit + machine.Units; u++)
            {
                unit = FreeFrom(u, start) < FreeFrom(unit, start) ? u : unit;
            }

            Before[op] = -1;
            _units[unit].Cover(start, finish, op);
        }

        if (unload + way.Unload > _shop.Now)
        {
            _people.BookAnyone(unload, way.Unload);
        }

        (Start[op], Finish[op], WayOf[op], UnitOf[op]) = (start, finish, w, unit);
    }

    private int FreeFrom(int unit, int start)
    {
        var busy = _units[unit];
        for (var i = busy.Count - 1; i >= 0; i--)
        {
            if (busy.Op(i) >= 0)
            {
                return Math.Max(start, busy.To(i));
            }
        }

        return start;
    }

    private int ExpectedUnload(in Way way, int started)
    {
        var over = started + way.Load + way.Run;
        var unload = (int)_shop.Working.EarliestStart(over, way.Unload);
        if (unload < 0 || unload + way.Unload >= _shop.Now)
        {
            return CountsPeople ? _people.Earliest(over, way.Unload, out _) : unload;
        }

        // Overdue: somebody who is there is about to take it out; at night it lies there until the next shift.
        return _people.IsSomebodyThere(_shop.Now) || way.Unload == 0 ? _shop.Now - way.Unload : _people.Earliest(_shop.Now, way.Unload, out _);
    }
}
