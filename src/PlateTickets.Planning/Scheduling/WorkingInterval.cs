namespace PlateTickets.Planning.Scheduling;

/// <summary>A span of attended time in UTC, start inclusive, end exclusive.</summary>
public readonly record struct WorkingInterval(DateTime StartUtc, DateTime EndUtc);
