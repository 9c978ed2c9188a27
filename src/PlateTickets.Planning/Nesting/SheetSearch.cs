namespace PlateTickets.Planning.Nesting;

/// <summary>
/// Chooses the stock size and the shelf direction sheet by sheet: the best covered sheet first, then the alternatives as
/// far as a fixed number of fillings goes. The first way down is a full answer, so running out of fillings only ends the improving.
/// </summary>
internal sealed class SheetSearch(IReadOnlyList<NestStock> stocks, NestRules rules)
{
    // Some 10 ms of work for a usual set; counted rather than timed, so that the same plates always give the same sheets.
    private const int MostFillings = 4_000;

    private readonly List<NestSheet> _sheets = [];
    private int _fillings;
    private NestCost? _bestCost;
    private IReadOnlyList<NestSheet> _best = [];

    /// <param name="pieces">Each fits on at least one of the stock sizes.</param>
    public (IReadOnlyList<NestSheet> Sheets, NestCost Cost) Run(IReadOnlyList<Piece> pieces)
    {
        Go(pieces, NestCost.None);
        return (_best, _bestCost!.Value);
    }

    private void Go(IReadOnlyList<Piece> pieces, NestCost cost)
    {
        if (pieces.Count == 0)
        {
            if (_bestCost is null || cost.CompareTo(_bestCost.Value) < 0)
            {
                (_best, _bestCost) = ([.. _sheets], cost);
            }

            return;
        }

        if (_bestCost is { } best && (_fillings > MostFillings || cost.Area + pieces.Sum(p => p.Area) > best.Area))
        {
            return;
        }

        foreach (var fill in Fills(pieces))
        {
            _sheets.Add(fill.Sheet);
            Go(fill.Left, cost.With(fill));
            _sheets.RemoveAt(_sheets.Count - 1);
        }
    }

    private List<ShelfFill> Fills(IReadOnlyList<Piece> pieces)
    {
        var fills = new List<ShelfFill>();
        foreach (var stock in stocks)
        {
            foreach (var direction in (ReadOnlySpan<ShelfDirection>)[ShelfDirection.AroundDrum, ShelfDirection.AlongAxis])
            {
                _fillings++;
                if (ShelfFill.Of(stock, rules, pieces, direction) is { } fill)
                {
                    fills.Add(fill);
                }
            }
        }

        // OrderBy keeps the order of equals: a tie goes to the stock size and direction tried first.
        return [.. fills.OrderByDescending(f => f.Covered).ThenBy(f => f.Sheet.AxialExtent)];
    }
}
