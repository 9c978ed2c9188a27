namespace PlateTickets.Planning.Nesting.Search;

/// <summary>What makes a free rectangle the right one for a plate.</summary>
internal enum FitScore
{
    LeastArea,
    ShortSide,
    LongSide,

    /// <summary>The one nearest to the sheet's start along the drum axis.</summary>
    Leftmost,

    /// <summary>One that a side of the plate fills, else the least area.</summary>
    FullSide,
}
