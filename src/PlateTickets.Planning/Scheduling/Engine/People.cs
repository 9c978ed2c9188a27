namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>Who can load and unload when. Each operator is booked like a machine; without operators only the room's working time counts.</summary>
internal sealed class People
{
    private readonly IntervalSet _working;
    private readonly IntervalSet[]? _calendars;
    private readonly Busy[] _busy;
    private readonly int _shortest;

    public People(Shop shop)
    {
        _working = shop.Working;
        _calendars = shop.Operators;
        _busy = [.. (_calendars ?? []).Select(_ => new Busy())];
        _shortest = int.MaxValue;
        foreach (ref readonly var way in shop.Ways.AsSpan())
        {
            _shortest = Math.Min(_shortest, Math.Min(way.Load > 0 ? way.Load : int.MaxValue, way.Unload > 0 ? way.Unload : int.MaxValue));
        }
    }

    public bool Counted => _calendars is not null;

    public void Clear(People from)
    {
        for (var i = 0; i < _busy.Length; i++)
        {
            from._busy[i].CopyTo(_busy[i]);
        }
    }

    /// <summary>The earliest instant from which somebody has time for so many seconds, and who; -1 when there is none.</summary>
    public int Earliest(int from, int length, out int who)
    {
        who = -1;
        if (length == 0)
        {
            return from;
        }

        if (_calendars is null)
        {
            return (int)_working.EarliestStart(from, length);
        }

        var best = -1;
        for (var i = 0; i < _busy.Length; i++)
        {
            var at = Earliest(i, from, length, best);
            if (at >= 0 && (best < 0 || at < best))
            {
                (best, who) = (at, i);
                if (at == from)
                {
                    break;
                }
            }
        }

        return best;
    }

    public void Book(int who, int from, int length)
    {
        if (who >= 0)
        {
            _busy[who].AddSolid(from, from + length, _shortest);
        }
    }

    public bool IsSomebodyThere(int at) => _calendars?.Any(c => c.Contains(at)) ?? _working.Contains(at);

    /// <summary>Books a fact: on whoever has time, or else on the one whom it keeps busy the longest beyond what he does already.</summary>
    public void BookAnyone(int from, int length)
    {
        if (_calendars is null || length == 0)
        {
            return;
        }

        if (Earliest(from, length, out var who) == from)
        {
            Book(who, from, length);
            return;
        }

        who = 0;
        for (var i = 1; i < _busy.Length; i++)
        {
            who = FreeFrom(i) < FreeFrom(who) ? i : who;
        }

        _busy[who].Cover(from, from + length, 0);
    }

    private int FreeFrom(int who) => _busy[who].Count == 0 ? int.MinValue : _busy[who].To(_busy[who].Count - 1);

    private int Earliest(int who, int from, int length, int before)
    {
        var (calendar, busy) = (_calendars![who], _busy[who]);
        var at = (int)calendar.EarliestStart(from, length, out var until);
        if (at < 0)
        {
            return -1;
        }

        for (var i = busy.FirstEndingAfter(at); i < busy.Count && (before < 0 || at < before);)
        {
            if (at + length <= busy.From(i))
            {
                return at;
            }

            at = Math.Max(at, busy.To(i));
            if (at + length > until)
            {
                // Only where the working time ends the calendar is asked again.
                at = (int)calendar.EarliestStart(at, length, out until);
                if (at < 0)
                {
                    return -1;
                }
            }

            i++;
            while (i < busy.Count && busy.To(i) <= at)
            {
                i++;
            }
        }

        return at;
    }
}
