namespace PlateTickets.Planning.Nesting.Search;

/// <summary>How a plate that may turn by itself is tried first.</summary>
internal enum Posture
{
    AsItFits,

    /// <summary>Long side along the drum axis.</summary>
    Lying,

    /// <summary>Long side around the drum.</summary>
    Standing,
}
