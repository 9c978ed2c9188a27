namespace PlateTickets.Planning.Scheduling;

/// <summary>A span of a working day in local time, start inclusive, end exclusive. An end at or before the start lies on the next day (night shift).</summary>
public sealed record LocalSpan(TimeOnly Start, TimeOnly End);

/// <summary>A shift with its breaks, on the given days of the week (the day on which it starts).</summary>
public sealed record Shift(string Name, IReadOnlyList<DayOfWeek> Days, LocalSpan Hours, IReadOnlyList<LocalSpan> Breaks);
