namespace PlateTickets.Planning.Nesting;

/// <summary>Free rims and gaps in micrometres.</summary>
/// <param name="Gap">Between two plates, for the knife.</param>
/// <param name="ClampMargin">At the two ends of the sheet around the drum, under the clamps.</param>
/// <param name="SideMargin">At the two sides along the drum axis.</param>
public sealed record NestRules(long Gap, long ClampMargin, long SideMargin)
{
    /// <summary>So many square micrometres of material a sheet more must save; 0 to look at the material alone.</summary>
    public long AreaPerSheet { get; init; }

    public CopyRule Copies { get; init; }

    /// <summary>Plates of one sheet are due at most so many minutes apart.</summary>
    public long DueApart { get; init; } = long.MaxValue;

    /// <summary>All plates of a set on sheets of one lot: lots differ in thickness and speed.</summary>
    public bool OneLotPerSet { get; init; }
}
