namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>What one unit, or one operator, is booked with: sorted, disjoint spans of seconds, each with the operation it is for (-1 for downtime).</summary>
internal sealed class Busy
{
    private int[] _from = new int[8];
    private int[] _to = new int[8];
    private int[] _op = new int[8];

    public int Count { get; private set; }

    public int From(int i) => _from[i];

    public int To(int i) => _to[i];

    public int Op(int i) => _op[i];

    /// <summary>The first span that ends after an instant; <see cref="Count"/> when there is none.</summary>
    public int FirstEndingAfter(int at)
    {
        var (low, high) = (0, Count);
        while (low < high)
        {
            var middle = (low + high) >>> 1;
            if (_to[middle] > at)
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        return low;
    }

    public void Add(int from, int to, int op)
    {
        if (to <= from)
        {
            return;
        }

        var at = FirstEndingAfter(from);
        if (Count == _from.Length)
        {
            var size = 2 * Count;
            Array.Resize(ref _from, size);
            Array.Resize(ref _to, size);
            Array.Resize(ref _op, size);
        }

        var behind = Count - at;
        if (behind > 0)
        {
            Array.Copy(_from, at, _from, at + 1, behind);
            Array.Copy(_to, at, _to, at + 1, behind);
            Array.Copy(_op, at, _op, at + 1, behind);
        }

        (_from[at], _to[at], _op[at]) = (from, to, op);
        Count++;
    }

    /// <summary>Adds a span and closes the gaps beside it that are too short for anything: a search then steps over them at once.</summary>
    public void AddSolid(int from, int to, int shortest)
    {
        if (to <= from)
        {
            return;
        }

        var at = FirstEndingAfter(from);
        var before = at > 0 && from - _to[at - 1] < shortest;
        var behind = at < Count && _from[at] - to < shortest;
        if (before && behind)
        {
            _to[at - 1] = _to[at];
            RemoveAt(at);
        }
        else if (before)
        {
            _to[at - 1] = to;
        }
        else if (behind)
        {
            _from[at] = from;
        }
        else
        {
            Add(from, to, 0);
        }
    }

    /// <summary>Adds a fact that may overlap what is there: what overlaps becomes one span.</summary>
    public void Cover(int from, int to, int op)
    {
        for (var i = Count - 1; i >= 0; i--)
        {
            if (_from[i] < to && from < _to[i])
            {
                (from, to) = (Math.Min(from, _from[i]), Math.Max(to, _to[i]));
                op = op < 0 ? _op[i] : op;
                RemoveAt(i);
            }
        }

        Add(from, to, op);
    }

    public void CopyTo(Busy other)
    {
        if (other._from.Length < Count)
        {
            (other._from, other._to, other._op) = (new int[_from.Length], new int[_from.Length], new int[_from.Length]);
        }

        Array.Copy(_from, other._from, Count);
        Array.Copy(_to, other._to, Count);
        Array.Copy(_op, other._op, Count);
        other.Count = Count;
    }

    private void RemoveAt(int i)
    {
        var behind = Count - i - 1;
        Array.Copy(_from, i + 1, _from, i, behind);
        Array.Copy(_to, i + 1, _to, i, behind);
        Array.Copy(_op, i + 1, _op, i, behind);
        Count--;
    }
}
