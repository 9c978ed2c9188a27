namespace PlateTickets.Planning.Scheduling;

/// <summary>
/// When somebody is there: sorted, disjoint UTC intervals [start, end) of attended time. Loading, unloading and
/// changeovers lie wholly inside one interval, they are not split over a break; runs may pass breaks and nights.
/// Every question is answered in O(log n). Times are of <see cref="DateTimeKind.Utc"/>; others are refused.
/// </summary>
public sealed class WorkingTime
{
    private readonly IntervalSet _set;

    /// <param name="intervals">In any order; those that overlap or touch become one, empty ones are left out.</param>
    /// <exception cref="ArgumentException">A time is not UTC, or an interval ends before it starts.</exception>
    public WorkingTime(IEnumerable<WorkingInterval> intervals)
    {
        Intervals = Merge(intervals);
        _set = new IntervalSet([.. Intervals.Select(i => i.StartUtc.Ticks)], [.. Intervals.Select(i => i.EndUtc.Ticks)]);
    }

    public IReadOnlyList<WorkingInterval> Intervals { get; }

    /// <summary>The longest time that can be worked without a break; zero when nobody ever is there.</summary>
    public TimeSpan Longest => TimeSpan.FromTicks(Math.Max(0, _set.Longest));

    internal IntervalSet Set => _set;

    /// <summary>Somebody is there all the time.</summary>
    public static WorkingTime Always(DateTime fromUtc, DateTime toUtc) => new([new WorkingInterval(fromUtc, toUtc)]);

    /// <summary>The attended time of a calendar of shifts; how daylight-saving changes are taken is told at <see cref="ShiftTime"/>.</summary>
    /// <param name="shifts">Shifts that overlap or touch become one: whoever is there can take over.</param>
    /// <param name="closedDays">Local days on which no shift starts. A night shift that began the evening before is worked to its end.</param>
    /// <param name="zone">The site's time zone.</param>
    /// <param name="fromUtc">Begin of the calendar; shifts under way are cut here.</param>
    /// <param name="toUtc">End of the calendar; shifts under way are cut here.</param>
    /// <exception cref="ArgumentException">A time is not UTC, the calendar ends before it begins, or a break has no length.</exception>
    public static WorkingTime FromShifts(
        IReadOnlyList<Shift> shifts, IReadOnlySet<DateOnly> closedDays, TimeZoneInfo zone, DateTime fromUtc, DateTime toUtc)
    {
        RefuseUnlessUtc(fromUtc);
        RefuseUnlessUtc(toUtc);
        return new WorkingTime(ShiftTime.Intervals(shifts, closedDays, zone, fromUtc, toUtc)
            .Select(i => new WorkingInterval(Later(i.StartUtc, fromUtc), Earlier(i.EndUtc, toUtc)))
            .Where(i => i.StartUtc < i.EndUtc));
    }

    /// <summary>Is somebody there at this instant? The end of an interval is not part of it.</summary>
    public bool IsWorking(DateTime utc)
    {
        RefuseUnlessUtc(utc);
        return _set.Contains(utc.Ticks);
    }

    /// <summary>
    /// The earliest instant from which <paramref name="length"/> fits wholly inside one interval. Nothing to do needs
    /// nobody: a zero length returns <paramref name="notBeforeUtc"/> itself. Null when no interval from there on is long enough.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The length is negative.</exception>
    public DateTime? EarliestStart(DateTime notBeforeUtc, TimeSpan length)
    {
        RefuseUnlessUtc(notBeforeUtc);
        ArgumentOutOfRangeException.ThrowIfLessThan(length, TimeSpan.Zero);
        return Instant(_set.EarliestStart(notBeforeUtc.Ticks, length.Ticks));
    }

    /// <summary>
    /// The latest instant at which work of <paramref name="length"/>, wholly inside one interval, can end. A zero length
    /// returns <paramref name="notAfterUtc"/> itself. Null when no interval up to there is long enough.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The length is negative.</exception>
    public DateTime? LatestFinish(DateTime notAfterUtc, TimeSpan length)
    {
        RefuseUnlessUtc(notAfterUtc);
        ArgumentOutOfRangeException.ThrowIfLessThan(length, TimeSpan.Zero);
        return Instant(_set.LatestFinish(notAfterUtc.Ticks, length.Ticks));
    }

    private static List<WorkingInterval> Merge(IEnumerable<WorkingInterval> intervals)
    {
        var merged = new List<WorkingInterval>();
        foreach (var next in intervals.OrderBy(i => i.StartUtc).ThenBy(i => i.EndUtc))
        {
            RefuseUnlessUtc(next.StartUtc);
            RefuseUnlessUtc(next.EndUtc);
            if (next.EndUtc < next.StartUtc)
            {
                throw new ArgumentException($"Working time ends at {next.EndUtc:u}, before it starts at {next.StartUtc:u}: swap the two.");
            }

            if (merged.Count > 0 && next.StartUtc <= merged[^1].EndUtc)
            {
                merged[^1] = merged[^1] with { EndUtc = Later(merged[^1].EndUtc, next.EndUtc) };
            }
            else if (next.StartUtc < next.EndUtc)
            {
                merged.Add(next);
            }
        }

        return merged;
    }

    private static void RefuseUnlessUtc(DateTime time)
    {
        if (time.Kind != DateTimeKind.Utc)
        {
            throw new ArgumentException($"The plan counts in UTC, but {time:yyyy-MM-dd HH:mm} has no UTC kind: convert it from the site's time zone first.");
        }
    }

    private static DateTime? Instant(long ticks) => ticks < 0 ? null : new DateTime(ticks, DateTimeKind.Utc);

    private static DateTime Later(DateTime a, DateTime b) => a > b ? a : b;

    private static DateTime Earlier(DateTime a, DateTime b) => a < b ? a : b;
}
