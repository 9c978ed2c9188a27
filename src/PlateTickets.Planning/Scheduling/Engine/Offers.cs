using System.Runtime.InteropServices;

namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>
/// What the machines offer to operations that are done in the same ways, found once for all of them between two bookings. When many sheets
/// wait at a machine, nearly all of them ask the same.
/// </summary>
internal sealed class Offers
{
    private readonly Timetable _table;
    private readonly int[] _kind;
    private readonly Spot[] _spot;
    private readonly int[] _sinceReady;
    private readonly int[] _foundAt;
    private int _bookings = 1;

    /// <param name="table">Must place only behind the newest booking: then all who are ready before that one are offered the same.</param>
    public Offers(Shop shop, Timetable table)
    {
        _table = table;
        _kind = new int[shop.Ops];
        var kinds = new Dictionary<int, int>(new SameWays(shop));
        for (var op = 0; op < shop.Ops; op++)
        {
            ref var kind = ref CollectionsMarshal.GetValueRefOrAddDefault(kinds, op, out var known);
            kind = known ? kind : kinds.Count - 1;
            _kind[op] = kind;
        }

        (_spot, _sinceReady, _foundAt) = (new Spot[kinds.Count], new int[kinds.Count], new int[kinds.Count]);
    }

    /// <summary>To be called after each booking: what was found before it is no longer on offer.</summary>
    public void Forget() => _bookings++;

    /// <inheritdoc cref="Timetable.Earliest"/>
    public Spot Earliest(int op, int ready)
    {
        var kind = _kind[op];
        if (_foundAt[kind] != _bookings)
        {
            var since = _table.IdleSince(op);
            if (ready > since)
            {
                return _table.Earliest(op, ready, only: -1);
            }

            (_spot[kind], _sinceReady[kind], _foundAt[kind]) = (_table.Earliest(op, ready, only: -1), since, _bookings);
        }

        return ready <= _sinceReady[kind] ? _spot[kind] : _table.Earliest(op, ready, only: -1);
    }

    private sealed class SameWays(Shop shop) : IEqualityComparer<int>
    {
        public bool Equals(int x, int y) =>
            shop.Slot[x] == shop.Slot[y] && shop.NotUnloadedBefore[x] == shop.NotUnloadedBefore[y] && Recipe(x) == Recipe(y) && Ways(x).SequenceEqual(Ways(y));

        public int GetHashCode(int op)
        {
            var hash = default(HashCode);
            hash.Add(shop.Slot[op]);
            hash.Add(Recipe(op));
            foreach (var way in Ways(op))
            {
                hash.Add(way);
            }

            return hash.ToHashCode();
        }

        // A line offers another time to another recipe.
        private int Recipe(int op) => shop.Sheets[shop.JobOf[op]].RecipeId;

        private ReadOnlySpan<Way> Ways(int op) => shop.Ways.AsSpan(shop.FirstWay[op]..shop.FirstWay[op + 1]);
    }
}
