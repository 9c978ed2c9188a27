namespace PlateTickets.Planning.Nesting;

/// <summary>Where the copies of one separation lie.</summary>
public enum CopyRule
{
    /// <summary>Wherever least sheet is used.</summary>
    Any,

    /// <summary>No two on one sheet: a damaged sheet leaves one of them whole.</summary>
    Apart,

    /// <summary>On one sheet where they fit: both are exposed and washed alike.</summary>
    Together,
}
