using System.Globalization;

namespace PlateTickets.Planning.Scheduling;

/// <summary>
/// Shifts of local days as UTC intervals.
/// <para>Daylight saving. A local time that the clock skips becomes the instant of the jump, so nothing that lies in the
/// gap has a length: a night shift over it is an hour shorter. A local time that comes twice is the earlier instant
/// where a shift starts and the later one where it ends: a night shift over it is an hour longer, and a shift that
/// starts or ends inside the doubled hour keeps somebody there through both. A break stays as short as it can: it starts
/// with the later instant and ends with the first that follows.</para>
/// </summary>
internal static class ShiftTime
{
    /// <summary>The attended spans of every shift, breaks taken out; they may overlap and may reach out of the calendar.</summary>
    public static IEnumerable<WorkingInterval> Intervals(
        IReadOnlyList<Shift> shifts, IReadOnlySet<DateOnly> closedDays, TimeZoneInfo zone, DateTime fromUtc, DateTime toUtc)
    {
        if (toUtc < fromUtc)
        {
            throw new ArgumentException($"The calendar ends at {toUtc:u}, before it begins at {fromUtc:u}: swap the two.");
        }

        // Two days back: a shift of up to a day may have begun the day before, and zones differ from UTC by up to 14 hours.
        var first = DateOnly.FromDateTime(fromUtc).AddDays(-2);
        var last = DateOnly.FromDateTime(toUtc).AddDays(1);
        for (var day = first; day <= last; day = day.AddDays(1))
        {
            if (closedDays.Contains(day))
            {
                continue;
            }

            foreach (var shift in shifts)
            {
                if (shift.Days.Contains(day.DayOfWeek))
                {
                    foreach (var span in WithoutBreaks(shift, day, zone))
                    {
                        yield return span;
                    }
                }
            }
        }
    }

    /// <summary>First and last instant of the shift that starts on a local day.</summary>
    public static (DateTime StartUtc, DateTime EndUtc) Bounds(Shift shift, DateOnly day, TimeZoneInfo zone)
    {
        var (start, end) = On(day, shift.Hours);
        return (SiteClock.Earliest(start, zone), SiteClock.Latest(end, zone));
    }

    private static IEnumerable<WorkingInterval> WithoutBreaks(Shift shift, DateOnly day, TimeZoneInfo zone)
    {
        var (localStart, localEnd) = On(day, shift.Hours);
        var at = SiteClock.Earliest(localStart, zone);
        var end = SiteClock.Latest(localEnd, zone);
        foreach (var pause in shift.Breaks.Select(b => BreakOn(day, shift, b, zone)).OrderBy(b => b.StartUtc))
        {
            if (pause.StartUtc > at && at < end)
            {
                yield return new WorkingInterval(at, pause.StartUtc < end ? pause.StartUtc : end);
            }

            at = pause.EndUtc > at ? pause.EndUtc : at;
        }

        if (at < end)
        {
            yield return new WorkingInterval(at, end);
        }
    }

    private static WorkingInterval BreakOn(DateOnly day, Shift shift, LocalSpan pause, TimeZoneInfo zone)
    {
        if (pause.Start == pause.End)
        {
            throw new ArgumentException(string.Create(
                CultureInfo.InvariantCulture,
                $"The break of shift {shift.Name} starts and ends at {pause.Start:HH:mm}: give it an end after its start, or take it out."));
        }

        // In a night shift a break with an earlier clock time than the shift's start lies after midnight.
        var (localStart, localEnd) = On(pause.Start < shift.Hours.Start ? day.AddDays(1) : day, pause);
        var start = SiteClock.Latest(localStart, zone);
        var end = SiteClock.Earliest(localEnd, zone);
        return new WorkingInterval(start, end >= start ? end : SiteClock.Latest(localEnd, zone));
    }

    private static (DateTime Start, DateTime End) On(DateOnly day, LocalSpan span) =>
        (day.ToDateTime(span.Start), (span.End > span.Start ? day : day.AddDays(1)).ToDateTime(span.End));
}
