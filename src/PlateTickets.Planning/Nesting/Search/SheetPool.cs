namespace PlateTickets.Planning.Nesting.Search;

/// <summary>
/// The sheets that a search has laid lately, and the choice of some of them that together take as much as they can: each may be
/// better beside others than those it was laid with. After M. Monaci, P. Toth, A set-covering-based heuristic approach for
/// bin-packing problems, INFORMS Journal on Computing 18, 2006, 71-85, with prices that are learned: what a choice leaves over
/// is dearer in the next.
/// </summary>
internal sealed class SheetPool
{
    private const int Most = 4096;
    private const int Rounds = 100;

    // Found by trying: a price doubles in five rounds of being left over.
    private const double Dearer = 1.15;
    private const double Cheaper = 0.99;

    private readonly Problem _problem;
    private readonly int[] _type;
    private readonly int[][] _items;
    private readonly double[] _price;
    private readonly int[] _rest;
    private readonly ulong[] _mark;
    private readonly Column[] _columns = new Column[Most];
    private readonly HashSet<ulong> _known = [];
    private readonly PriorityQueue<Column, double> _dearest = new();
    private int _added;

    public SheetPool(Problem problem, ulong seed)
    {
        _problem = problem;
        var random = new SplitMix(~seed);
        _items = [.. Types(problem).Select(t => t.ToArray())];
        (_type, _price) = (new int[problem.Count], new double[_items.Length]);
        (_rest, _mark) = (new int[_items.Length], new ulong[_items.Length]);
        for (var type = 0; type < _items.Length; type++)
        {
            (_price[type], _mark[type]) = (AreaOf(type), random.Next());
            foreach (var item in _items[type])
            {
                _type[item] = type;
            }
        }
    }

    /// <summary>
    /// Where sizes come again and again the same sheets do, and a choice of them is often a whole layout. Where every plate is
    /// one of its kind it never was, and took half of the time. Which lot a set lies on is a matter of all sheets together.
    /// </summary>
    public static bool Helps(Problem problem) => !problem.Rules.OneLotPerSet && 2 * Types(problem).Count() <= problem.Count;

    /// <summary>Takes the place of the oldest when there are too many; one with the same plates is there once.</summary>
    public void Add(Filling filling)
    {
        var types = Array.ConvertAll(filling.Spots, s => _type[s.Item]);
        var key = (ulong)filling.Kind;
        foreach (var type in types)
        {
            key = unchecked(key + _mark[type]);
        }

        if (!_known.Add(key))
        {
            return;
        }

        var at = _added++ % Most;
        if (_added > Most)
        {
            _known.Remove(_columns[at].Key);
        }

        _columns[at] = new Column(filling, types, key);
    }

    /// <summary>Of the choices below the bound the one that leaves the least area loose.</summary>
    public Layout Choose(double cap)
    {
        List<Column> best = [];
        var least = double.MaxValue;
        for (var round = 0; round < Rounds && least > 0; round++)
        {
            var chosen = Round(cap);
            var loose = 0.0;
            for (var type = 0; type < _rest.Length; type++)
            {
                loose += Math.Max(0, _rest[type]) * AreaOf(type);
                _price[type] *= _rest[type] > 0 ? Dearer : Cheaper;
            }

            if (loose < least)
            {
                (least, best) = (loose, chosen);
            }
        }

        return LayoutOf(best);
    }

    private double AreaOf(int type) => _problem.Area(_items[type][0]);

    // Plates stand for each other when they are alike in all that decides who may share a sheet.
    private static IEnumerable<IGrouping<(int, int, bool, long, int), int>> Types(Problem problem) => Enumerable.Range(0, problem.Count).GroupBy(i => (
        problem.Width[i], problem.Length[i], problem.Turns[i],
        problem.Rules.DueApart == long.MaxValue ? 0 : problem.Due[i],
        problem.Rules.Copies == CopyRule.Apart ? problem.Separation[i] : 0));

    // Each time the sheet that takes the dearest plates of those that are left.
    private List<Column> Round(double cap)
    {
        for (var type = 0; type < _rest.Length; type++)
        {
            _rest[type] = _items[type].Length;
        }

        _dearest.Clear();
        foreach (var column in _columns.AsSpan(0, Math.Min(_added, Most)))
        {
            _dearest.Enqueue(column, -Worth(column));
        }

        var chosen = new List<Column>();
        var used = new int[_problem.Kinds.Length];
        var cost = 0.0;
        while (_dearest.TryDequeue(out var column, out _))
        {
            var kind = _problem.Kinds[column.Filling.Kind];
            if (cost + kind.Cost > cap || used[kind.Index] == kind.Copies || Worth(column) is not (> 0 and var worth))
            {
                continue;
            }

            // Its plates may have been taken since it was put in; one that is worth as much as the next is taken, and may come again.
            if (_dearest.TryPeek(out _, out var next) && -worth > next)
            {
                _dearest.Enqueue(column, -worth);
                continue;
            }

            chosen.Add(column);
            used[kind.Index]++;
            cost += kind.Cost;
            foreach (var type in column.Types)
            {
                _rest[type]--;
            }

            _dearest.Enqueue(column, -Worth(column));
        }

        return chosen;
    }

    private double Worth(Column column)
    {
        var worth = 0.0;
        foreach (var type in column.Types)
        {
            worth += _rest[type]-- > 0 ? _price[type] : 0;
        }

        foreach (var type in column.Types)
        {
            _rest[type]++;
        }

        return worth / _problem.Kinds[column.Filling.Kind].Cost;
    }

    // What two sheets would take lies on the first.
    private Layout LayoutOf(List<Column> chosen)
    {
        var layout = new Layout();
        var laid = new int[_items.Length];
        foreach (var (filling, types, _) in chosen)
        {
            var spots = new List<Spot>(types.Length);
            foreach (var (type, spot) in types.Zip(filling.Spots))
            {
                if (laid[type] < _items[type].Length)
                {
                    spots.Add(spot with { Item = _items[type][laid[type]++] });
                }
            }

            layout.Sheets.Add(new Filling(filling.Kind, [.. spots], spots.Sum(s => _problem.Area(s.Item)), filling.Cuts));
            layout.Cost += _problem.Kinds[filling.Kind].Cost;
        }

        for (var type = 0; type < laid.Length; type++)
        {
            layout.Loose.AddRange(_items[type].AsSpan(laid[type]));
        }

        layout.LooseArea = layout.Loose.Sum(_problem.Area);
        return layout;
    }

    /// <param name="Types">Of each spot.</param>
    private sealed record Column(Filling Filling, int[] Types, ulong Key);
}
