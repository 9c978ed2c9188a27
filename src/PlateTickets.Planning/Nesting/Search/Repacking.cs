namespace PlateTickets.Planning.Nesting.Search;

/// <summary>
/// Looks for a layout that costs less than a bound: takes a few sheets apart, lays their plates and the loose ones out again,
/// and keeps the outcome when not much more is left loose than before. A layout without loose plates is an answer; the search
/// then goes on below its cost. After G. Schrimpf, J. Schneider, H. Stamm-Wilbrandt, G. Dueck, Record breaking optimization results
/// using the ruin and recreate principle, Journal of Computational Physics 159, 2000, 139-171.
/// </summary>
internal sealed class Repacking
{
    // Of a plate's mean area: so much more may be left loose after one turn. Found by trying.
    private const double Loosening = 0.15;

    // Plates laid between two looks at the sheets of the past.
    private const long BetweenChoices = 100_000;

    private readonly Problem _problem;
    private readonly Packer _packer;
    private readonly Relaying _relaying;
    private readonly Styles _styles = new();
    private readonly SheetPool? _past;
    private readonly double _meanArea;
    private readonly int[] _used;
    private readonly List<int> _plates = [];
    private readonly List<int> _taken = [];
    private readonly List<int> _opened = [];
    private SplitMix _random;
    private Layout _now = new();
    private double _cap;
    private long _laid;
    private long _choosesAt = BetweenChoices;

    public Repacking(Problem problem, ulong seed)
    {
        _problem = problem;
        _packer = new Packer(problem);
        _relaying = new Relaying(problem, _packer);
        _random = new SplitMix(seed);
        _used = new int[problem.Kinds.Length];
        _past = SheetPool.Helps(problem) ? new SheetPool(problem, seed) : null;
        _meanArea = Enumerable.Range(0, problem.Count).Average(problem.Area);
    }

    /// <param name="first">A layout without loose plates.</param>
    /// <param name="leastCost">No layout costs less.</param>
    /// <param name="goOn">Asked with the number of plates laid so far.</param>
    /// <returns>A layout without loose plates that costs no more.</returns>
    public Layout Run(Layout first, double leastCost, Func<long, bool> goOn)
    {
        var best = first;
        if (first.Sheets.Count == 0 || first.Cost <= leastCost)
        {
            return best;
        }

        _now = first.Copy();
        foreach (var sheet in _now.Sheets)
        {
            _used[sheet.Kind]++;
        }

        GoBelow(first.Cost);
        while (goOn(_laid))
        {
            Turn();
            if (_past is not null && _laid >= _choosesAt)
            {
                _choosesAt = _laid + BetweenChoices;
                Choose(_past);
            }

            if (_now.Loose.Count == 0)
            {
                best = _now.Copy();
                if (best.Cost <= leastCost)
                {
                    break;
                }

                GoBelow(best.Cost);
            }
        }

        return best;
    }

    // The emptiest sheets give their plates up until the rest costs less than the best.
    private void GoBelow(double cost)
    {
        // Costs are whole numbers.
        _cap = cost - 0.5;
        while (_now.Cost > _cap)
        {
            var emptiest = _now.Sheets.MinBy(s => s.Area)!;
            _now.Sheets.Remove(emptiest);
            _now.Cost -= _problem.Kinds[emptiest.Kind].Cost;
            _now.LooseArea += emptiest.Area;
            _now.Loose.AddRange(emptiest.Spots.Select(s => s.Item));
            _used[emptiest.Kind]--;
        }
    }

    private void Choose(SheetPool past)
    {
        var layout = past.Choose(_cap);
        if (layout.LooseArea > _now.LooseArea + _meanArea)
        {
            return;
        }

        _now = layout;
        Array.Clear(_used);
        foreach (var sheet in layout.Sheets)
        {
            _used[sheet.Kind]++;
        }
    }

    private void Turn()
    {
        var cost = TakeApart();
        _packer.Clear(_problem.LeastWidth, _problem.LeastLength);
        OpenSheets(cost);
        if (_problem.Rules.OneLotPerSet && _opened.Count > 0 && _random.Below(3) != 0)
        {
            _packer.Lots.Draw(_opened.ConvertAll(o => _problem.Kinds[o].Lot), ref _random);
        }

        // Opening and sorting cost about as much as some plates.
        _laid += 8 + _plates.Count;
        var style = _styles.Next(ref _random);
        var chance = _random.Uniform();
        var limit = _now.LooseArea + (_meanArea * Loosening * chance * chance);
        var left = _relaying.Lay(_plates, style, limit, ref _random);
        if (left > limit)
        {
            foreach (var i in _taken)
            {
                _used[_now.Sheets[i].Kind]++;
            }

            return;
        }

        if (left < _now.LooseArea)
        {
            _styles.Helped(style);
        }

        Keep(cost, left);
    }

    /// <returns>The cost of the sheets that stay as they are.</returns>
    private double TakeApart()
    {
        var sheets = _now.Sheets;
        _taken.Clear();
        _plates.Clear();
        _plates.AddRange(_now.Loose);
        var cost = _now.Cost;
        var many = Math.Min(sheets.Count, 1 + _random.Below(4));
        while (_taken.Count < many)
        {
            // Of two sheets the one with more waste: there is more to gain.
            var (i, j) = (_random.Below(sheets.Count), _random.Below(sheets.Count));
            i = sheets[j].Area < sheets[i].Area ? j : i;
            if (_taken.Contains(i))
            {
                i = _random.Below(sheets.Count);
            }

            if (_taken.Contains(i))
            {
                continue;
            }

            _taken.Add(i);
            _used[sheets[i].Kind]--;
            cost -= _problem.Kinds[sheets[i].Kind].Cost;
            foreach (var spot in sheets[i].Spots)
            {
                _plates.Add(spot.Item);
            }
        }

        if (_problem.Rules.OneLotPerSet)
        {
            _packer.Lots.Clear();
            for (var i = 0; i < sheets.Count; i++)
            {
                if (!_taken.Contains(i))
                {
                    _packer.Lots.Note(sheets[i]);
                }
            }
        }

        return cost;
    }

    // The same kinds again or others, as long as the layout stays below the bound; what is left of it buys more sheets.
    private void OpenSheets(double cost)
    {
        var kinds = _problem.Kinds;
        _opened.Clear();
        if (kinds.Length == 1 || _random.Below(5) != 0)
        {
            foreach (var i in _taken)
            {
                cost += Open(kinds[_now.Sheets[i].Kind]);
            }
        }

        var start = _random.Below(kinds.Length);
        for (var k = 0; k < kinds.Length; k++)
        {
            var kind = kinds[(start + k) % kinds.Length];
            while (cost + kind.Cost <= _cap && _used[kind.Index] + _opened.Count(o => o == kind.Index) < kind.Copies)
            {
                cost += Open(kind);
            }
        }
    }

    private double Open(in SheetKind kind)
    {
        _opened.Add(kind.Index);
        _packer.AddSheet(kind.Index);
        return kind.Cost;
    }

    private void Keep(double cost, double left)
    {
        var sheets = _now.Sheets;
        _taken.Sort();
        for (var t = _taken.Count - 1; t >= 0; t--)
        {
            sheets[_taken[t]] = sheets[^1];
            sheets.RemoveAt(sheets.Count - 1);
        }

        foreach (var filling in _packer.Fillings())
        {
            sheets.Add(filling);
            _past?.Add(filling);
            _used[filling.Kind]++;
            cost += _problem.Kinds[filling.Kind].Cost;
        }

        _now.Cost = cost;
        _now.LooseArea = left;
        _now.Loose.Clear();
        _now.Loose.AddRange(_relaying.Left);
    }
}
