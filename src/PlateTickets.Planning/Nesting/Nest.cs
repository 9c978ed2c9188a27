namespace PlateTickets.Planning.Nesting;

/// <summary>A plate to lay out: micrometres. <paramref name="Across"/> is its size across the print (width), <paramref name="Around"/> around the cylinder (length).</summary>
public sealed record NestPlate(int Id, long Across, long Around);

/// <summary>A size in which raw sheets are bought: micrometres. Width lies along the drum axis, length around the drum.</summary>
public sealed record NestStock(int Id, long Width, long Length);

/// <summary>Free rims and gaps in micrometres.</summary>
/// <param name="Gap">Between two plates, for the knife.</param>
/// <param name="ClampMargin">At the two ends of the sheet around the drum, under the clamps.</param>
/// <param name="SideMargin">At the two sides along the drum axis.</param>
public sealed record NestRules(long Gap, long ClampMargin, long SideMargin);

/// <summary>Where a plate lies: micrometres from the sheet's corner, x along the drum axis, y around the drum.</summary>
public sealed record PlacedPlate(int PlateId, long X, long Y, long Width, long Length, bool Rotated);

/// <summary>One raw sheet with its plates.</summary>
public sealed record NestSheet(int StockId, long Width, long Length, IReadOnlyList<PlacedPlate> Plates)
{
    /// <summary>How far the plates reach along the drum axis, from the first to the last: what the imager has to travel.</summary>
    public long AxialExtent => Plates.Max(p => p.X + p.Width) - Plates.Min(p => p.X);
}

/// <summary>The sheets, and the plates that fit on no stock size at all.</summary>
public sealed record NestResult(IReadOnlyList<NestSheet> Sheets, IReadOnlyList<NestPlate> TooLarge);
