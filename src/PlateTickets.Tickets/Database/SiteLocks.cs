namespace PlateTickets.Tickets.Database;

/// <summary>Advisory locks of PostgreSQL, which belong to the whole database: each of its sites has its own.</summary>
public static class SiteLocks
{
    /// <summary>The number of a lock in SQL, by the schema of the session. A room that has its database for itself keeps the number as it is.</summary>
    /// <param name="number">The lock, the same on all nodes.</param>
    public static string Of(long number) => $"CASE current_schema() WHEN 'public' THEN {number} ELSE hashtextextended(current_schema(), {number}) END";
}
