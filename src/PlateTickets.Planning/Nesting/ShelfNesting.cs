namespace PlateTickets.Planning.Nesting;

/// <summary>
/// Lays plates on stock sizes in shelves: strips that are cut apart edge to edge, then plate by plate.
/// <para>All plates of a call lie in the same direction, because a set laid out both ways stretches differently and
/// misregisters (common practice): along, their size around the cylinder along the sheet's length, or across, all
/// turned by 90 degrees. The direction that leaves the fewest plates too large is taken; of two equal ones the
/// one with the least area of sheets, then the least travel of the imager along the drum axis, then the fewest sheets,
/// then along. So when some plates fit only along and others only across, the fewer are reported as too large: lay them
/// out in a call of their own, or on a larger stock size.</para>
/// <para>Every sheet may be of another stock size. Good but not proven best: shelves are filled first fit decreasing.</para>
/// </summary>
public static class ShelfNesting
{
    /// <param name="plates">The plates of one set, in micrometres: above 0, at most 100 m.</param>
    /// <param name="stocks">The stock sizes to choose from, any number of sheets of each, in micrometres: above 0, at most 100 m.</param>
    /// <param name="rules">Free rims and gaps in micrometres, 0 or more.</param>
    /// <exception cref="ArgumentException">A size, rim or gap is out of its range.</exception>
    public static NestResult Nest(IReadOnlyList<NestPlate> plates, IReadOnlyList<NestStock> stocks, NestRules rules)
    {
        NestCheck.Refuse(plates, stocks, rules);
        var along = Lay(plates, stocks, rules, rotated: false);
        var across = Lay(plates, stocks, rules, rotated: true);
        return (across.Result.TooLarge.Count, across.Cost).CompareTo((along.Result.TooLarge.Count, along.Cost)) < 0
            ? across.Result
            : along.Result;
    }

    private static (NestResult Result, NestCost Cost) Lay(
        IReadOnlyList<NestPlate> plates, IReadOnlyList<NestStock> stocks, NestRules rules, bool rotated)
    {
        var fits = plates.Select(p => new Piece(p, rotated)).ToLookup(p => stocks.Any(s => p.Fits(s, rules)));
        var (sheets, cost) = new SheetSearch(stocks, rules).Run([.. fits[true]]);
        return (new NestResult(sheets, [.. fits[false].Select(p => p.Plate)]), cost);
    }
}
