namespace PlateTickets.Tickets.Database;

/// <summary>Patterns for LIKE, with the backslash as escape.</summary>
internal static class LikePattern
{
    /// <summary>Matches what has this in it, as it stands.</summary>
    public static string Holding(string part) =>
        $"%{part.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("%", "\\%", StringComparison.Ordinal).Replace("_", "\\_", StringComparison.Ordinal)}%";
}
