namespace PlateTickets.Planning.Nesting.Search;

/// <summary>A first answer, sheet by sheet: each time the kind of sheet that the plates left over cover best.</summary>
internal sealed class FirstLayout(Problem problem)
{
    // When sets do not fit on the lots where they began, they are bound to lots by chance so many times.
    private const int MostDraws = 60;

    private readonly Packer _packer = new(problem);
    private readonly PlateOrder _order = new(problem);
    private SplitMix _random = new(1);
    private readonly LotsOfSets _drawn = new(problem);
    private bool _drawLots;

    /// <summary>The cheapest of some tries. Plates that no sheet takes any more, because there are too few, stay loose.</summary>
    public Layout Make()
    {
        Layout? best = null;
        for (var measure = 0; measure < PlateOrder.Measures; measure++)
        {
            foreach (var (score, split) in (ReadOnlySpan<(FitScore, SplitRule)>)[(FitScore.LeastArea, SplitRule.ShorterRest), (FitScore.ShortSide, SplitRule.LargestPiece), (FitScore.Leftmost, SplitRule.Along)])
            {
                (_packer.Score, _packer.Split) = (score, split);
                Take(Make(measure));
            }
        }

        for (var tried = 0; tried < MostDraws && problem.Rules.OneLotPerSet && best is { Loose.Count: > 0 }; tried++)
        {
            _drawLots = true;
            Take(Make(_random.Below(PlateOrder.Measures)));
        }

        return best!;

        void Take(Layout layout)
        {
            if (best is null || (layout.LooseArea, layout.Cost).CompareTo((best.LooseArea, best.Cost)) < 0)
            {
                best = layout;
            }
        }
    }

    private Layout Make(int measure)
    {
        var layout = new Layout();
        var used = new int[problem.Kinds.Length];
        var left = Enumerable.Range(0, problem.Count).ToList();
        _order.Sort(left, measure, 0, ref _random);
        if (problem.Kinds.Length == 1 && problem.Kinds[0].Copies >= problem.Count)
        {
            return Together(layout, left);
        }

        _drawn.Clear();
        if (_drawLots)
        {
            _drawn.Draw([.. problem.Kinds.Where(k => k.Copies > 0).Select(k => k.Lot).Distinct()], ref _random);
        }

        while (left.Count > 0 && Fullest(layout, left, used) is { } sheet)
        {
            layout.Sheets.Add(sheet);
            layout.Cost += problem.Kinds[sheet.Kind].Cost;
            used[sheet.Kind]++;
            var laid = sheet.Spots.Select(s => s.Item).ToHashSet();
            left.RemoveAll(laid.Contains);
        }

        layout.Loose.AddRange(left);
        layout.LooseArea = left.Sum(problem.Area);
        return layout;
    }

    private Filling? Fullest(Layout layout, List<int> left, int[] used)
    {
        Filling? best = null;
        var covered = 0.0;
        foreach (var kind in problem.Kinds)
        {
            if (used[kind.Index] >= kind.Copies)
            {
                continue;
            }

            _packer.Clear(problem.LeastWidth, problem.LeastLength);
            NoteLots(layout);
            _packer.AddSheet(kind.Index);
            foreach (var item in left)
            {
                _packer.Put(item);
            }

            if (_packer.Fillings().FirstOrDefault() is { } filling && filling.Area / kind.Cost > covered)
            {
                (best, covered) = (filling, filling.Area / kind.Cost);
            }
        }

        return best;
    }

    private void NoteLots(Layout layout)
    {
        _packer.Lots.Take(_drawn);
        if (problem.Rules.OneLotPerSet)
        {
            layout.Sheets.ForEach(_packer.Lots.Note);
        }
    }

    // Sheets of one kind are all filled at once: a plate may go to any that is open.
    private Layout Together(Layout layout, List<int> items)
    {
        _packer.Clear(problem.LeastWidth, problem.LeastLength);
        foreach (var item in items)
        {
            if (!_packer.Put(item))
            {
                _packer.AddSheet(0);
                if (!_packer.Put(item))
                {
                    layout.Loose.Add(item);
                    layout.LooseArea += problem.Area(item);
                }
            }
        }

        layout.Sheets.AddRange(_packer.Fillings());
        layout.Cost = layout.Sheets.Count * problem.Kinds[0].Cost;
        return layout;
    }
}
