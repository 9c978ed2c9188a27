namespace PlateTickets.Planning.Nesting;

/// <summary>What a layout costs, compared from left to right: square micrometres of sheets, micrometres along the drum axis, number of sheets.</summary>
internal readonly record struct NestCost(double Area, long Axial, int Sheets) : IComparable<NestCost>
{
    public static readonly NestCost None = new(0, 0, 0);

    public NestCost With(ShelfFill fill) => new(Area + fill.Area, Axial + fill.Sheet.AxialExtent, Sheets + 1);

    public int CompareTo(NestCost other) => (Area, Axial, Sheets).CompareTo((other.Area, other.Axial, other.Sheets));
}
