namespace PlateTickets.Planning.Nesting.Search;

/// <summary>Which way the rest of a free rectangle is cut.</summary>
internal enum SplitRule
{
    ShorterRest,
    LongerRest,
    Across,
    Along,
    LargestPiece,
    EvenPieces,
}
