namespace PlateTickets.Planning.Nesting.Search;

/// <summary>
/// Keeps the sheets of a layout and lays one or two of them out again: sets on fewer sheets, then less travel along the drum
/// axis, then fewer cuts.
/// </summary>
internal sealed class Tidying(Problem problem, ulong seed)
{
    private const int VainTurns = 400;

    private readonly Packer _packer = new(problem);
    private readonly List<int> _plates = [];
    private SplitMix _random = new(seed);

    public void Run(Layout layout, Func<long, bool> goOn)
    {
        var relaying = new Relaying(problem, _packer);
        var (laid, vain) = (0L, 0);
        while (layout.Sheets.Count > 0 && vain < VainTurns && goOn(laid))
        {
            var one = _random.Below(layout.Sheets.Count);
            var other = _random.Below(2) == 0 ? one : _random.Below(layout.Sheets.Count);
            vain = Again(layout, relaying, one, other) ? 0 : vain + 1;
            laid += 8 + _plates.Count;
        }
    }

    private bool Again(Layout layout, Relaying relaying, int one, int other)
    {
        var sheets = layout.Sheets;
        _plates.Clear();
        _packer.Clear(problem.LeastWidth, problem.LeastLength);
        Open(sheets[one]);
        if (other != one)
        {
            Open(sheets[other]);
        }

        if (problem.Rules.OneLotPerSet)
        {
            _packer.Lots.Clear();
            foreach (var sheet in sheets.Where((_, i) => i != one && i != other))
            {
                _packer.Lots.Note(sheet);
            }
        }

        if (relaying.Lay(_plates, Style.Drawn(ref _random), 0, ref _random) > 0)
        {
            return false;
        }

        var none = new LayoutValue(0, 0, 0, 0, 0);
        var before = other == one ? none.With(problem, sheets[one]) : none.With(problem, sheets[one]).With(problem, sheets[other]);
        var again = _packer.Fillings().ToList();
        var after = again.Aggregate(none, (value, sheet) => value.With(problem, sheet));
        // A sheet fewer would have been found before; the sheets stay what they are.
        if (again.Count != (other == one ? 1 : 2) || after.CompareTo(before) >= 0)
        {
            return false;
        }

        (sheets[one], sheets[other]) = (again[0], again[^1]);
        return true;
    }

    private void Open(Filling sheet)
    {
        _packer.AddSheet(sheet.Kind);
        _plates.AddRange(sheet.Spots.Select(s => s.Item));
    }
}
