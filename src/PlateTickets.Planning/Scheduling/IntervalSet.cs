namespace PlateTickets.Planning.Scheduling;

/// <summary>
/// Sorted, disjoint intervals of ticks with the two questions that planning asks of them, both in O(log n).
/// A tree of the longest lengths finds the next interval that is long enough without walking over short ones.
/// </summary>
internal sealed class IntervalSet
{
    private readonly long[] _starts;
    private readonly long[] _ends;
    private readonly long[] _longest;
    private readonly int _leaves;

    public IntervalSet(long[] starts, long[] ends)
    {
        _starts = starts;
        _ends = ends;
        _leaves = 1;
        while (_leaves < starts.Length)
        {
            _leaves *= 2;
        }

        _longest = new long[2 * _leaves];
        Array.Fill(_longest, -1);
        for (var i = 0; i < starts.Length; i++)
        {
            _longest[_leaves + i] = ends[i] - starts[i];
        }

        for (var node = _leaves - 1; node > 0; node--)
        {
            _longest[node] = Math.Max(_longest[2 * node], _longest[(2 * node) + 1]);
        }
    }

    public int Count => _starts.Length;

    public (long From, long To) Span(int i) => (_starts[i], _ends[i]);

    /// <summary>The length of the longest interval; -1 when there is none.</summary>
    public long Longest => _longest[1];

    public bool Contains(long at)
    {
        var i = LastStartingAtOrBefore(at);
        return i >= 0 && at < _ends[i];
    }

    /// <summary>Earliest start, not before <paramref name="notBefore"/>, of a span that lies wholly in one interval; -1 when there is none.</summary>
    public long EarliestStart(long notBefore, long length) => length == 0 ? notBefore : EarliestStart(notBefore, length, out _);

    /// <param name="until">The end of the interval that it lies in.</param>
    /// <inheritdoc cref="EarliestStart(long, long)"/>
    public long EarliestStart(long notBefore, long length, out long until)
    {
        var i = LastStartingAtOrBefore(notBefore);
        if (i >= 0 && _ends[i] - notBefore >= length)
        {
            until = _ends[i];
            return notBefore;
        }

        // Here the tail of interval i is too short; of all later intervals the first long enough will do.
        var next = FirstFrom(i + 1, length);
        until = next < 0 ? -1 : _ends[next];
        return next < 0 ? -1 : _starts[next];
    }

    /// <summary>Latest finish, not after <paramref name="notAfter"/>, of a span that lies wholly in one interval; -1 when there is none.</summary>
    public long LatestFinish(long notAfter, long length)
    {
        if (length == 0)
        {
            return notAfter;
        }

        var i = LastStartingAtOrBefore(notAfter);
        if (i >= 0 && Math.Min(_ends[i], notAfter) - _starts[i] >= length)
        {
            return Math.Min(_ends[i], notAfter);
        }

        var last = LastUpTo(i - 1, length);
        return last < 0 ? -1 : _ends[last];
    }

    private int LastStartingAtOrBefore(long at)
    {
        // By hand, because a planner asks this millions of times and the library's search compares through an interface.
        var starts = _starts;
        var (low, count) = (0, starts.Length);
        while (count > 1)
        {
            var half = count >>> 1;
            low = starts[low + half] <= at ? low + half : low;
            count -= half;
        }

        return count > 0 && starts[low] <= at ? low : -1;
    }

    private int FirstFrom(int from, long length)
    {
        if (from >= Count)
        {
            return -1;
        }

        var node = _leaves + from;
        while (_longest[node] < length)
        {
            // A left child has its right sibling still before it; a right child goes up until it is one.
            while ((node & 1) == 1)
            {
                node >>= 1;
                if (node <= 1)
                {
                    return -1;
                }
            }

            if (node <= 1)
            {
                return -1;
            }

            node++;
        }

        while (node < _leaves)
        {
            node = _longest[2 * node] >= length ? 2 * node : (2 * node) + 1;
        }

        return node - _leaves;
    }

    private int LastUpTo(int to, long length)
    {
        if (to < 0)
        {
            return -1;
        }

        var node = _leaves + to;
        while (_longest[node] < length)
        {
            while (node > 1 && (node & 1) == 0)
            {
                node >>= 1;
            }

            if (node <= 1)
            {
                return -1;
            }

            node--;
        }

        while (node < _leaves)
        {
            node = _longest[(2 * node) + 1] >= length ? (2 * node) + 1 : 2 * node;
        }

        return node - _leaves;
    }
}
