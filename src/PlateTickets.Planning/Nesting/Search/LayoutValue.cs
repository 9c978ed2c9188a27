namespace PlateTickets.Planning.Nesting.Search;

/// <summary>
/// What a layout costs, compared from left to right: plates without a sheet, square micrometres of sheets, sheets that sets (and
/// copies that lie together) are spread over, micrometres along the drum axis, cuts.
/// </summary>
internal readonly record struct LayoutValue(int Missing, double Area, int Spread, long Axial, int Cuts) : IComparable<LayoutValue>
{
    public static LayoutValue Of(Problem problem, Layout layout)
    {
        var value = new LayoutValue(layout.Loose.Count, layout.Cost, 0, 0, 0);
        foreach (var sheet in layout.Sheets)
        {
            value = value.With(problem, sheet);
        }

        return value;
    }

    public LayoutValue With(Problem problem, Filling sheet) =>
        this with { Spread = Spread + SpreadOf(problem, sheet), Axial = Axial + sheet.Reach(problem), Cuts = Cuts + sheet.Cuts };

    public int CompareTo(LayoutValue other) =>
        (Missing, Area, Spread, Axial, Cuts).CompareTo((other.Missing, other.Area, other.Spread, other.Axial, other.Cuts));

    // Every sheet counts once for each set that it carries a part of; added up that is the number of sheets of each set.
    private static int SpreadOf(Problem problem, Filling sheet)
    {
        var sets = 0;
        for (var i = 0; i < sheet.Spots.Length; i++)
        {
            sets += FirstOf(problem.Set, sheet.Spots, i) ? 1 : 0;
            sets += problem.Rules.Copies == CopyRule.Together && FirstOf(problem.Separation, sheet.Spots, i) ? 1 : 0;
        }

        return sets;
    }

    private static bool FirstOf(int[] keys, Spot[] spots, int at)
    {
        for (var i = 0; i < at; i++)
        {
            if (keys[spots[i].Item] == keys[spots[at].Item])
            {
                return false;
            }
        }

        return true;
    }
}
