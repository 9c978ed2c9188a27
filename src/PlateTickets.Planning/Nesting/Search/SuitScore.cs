namespace PlateTickets.Planning.Nesting.Search;

/// <summary>What makes a plate the right one for a free rectangle.</summary>
internal enum SuitScore
{
    /// <summary>The share of its area that it covers.</summary>
    Area,

    /// <summary>The share of one of its sides.</summary>
    Side,

    Width,

    Length,

    /// <summary>A whole side first, then the share of the area.</summary>
    WholeSide,
}
