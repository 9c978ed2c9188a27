namespace PlateTickets.Planning.Scheduling;

/// <summary>One shift on one day, breaks included (UTC).</summary>
/// <param name="Name">The shift's name.</param>
/// <param name="Day">The local day on which it starts.</param>
/// <param name="StartUtc">Inclusive.</param>
/// <param name="EndUtc">Exclusive.</param>
public sealed record ShiftDay(string Name, DateOnly Day, DateTime StartUtc, DateTime EndUtc);

/// <summary>Tells the shifts of a calendar apart, each day's for itself; daylight saving is taken as <see cref="ShiftTime"/> tells.</summary>
public static class ShiftDays
{
    /// <summary>Every shift that touches [from, to), whole, by start; a shift that is skipped wholly by the clock's jump is left out.</summary>
    /// <param name="shifts">The shifts of the week.</param>
    /// <param name="closedDays">Local days on which no shift starts.</param>
    /// <param name="zone">The site's time zone.</param>
    /// <param name="fromUtc">Inclusive.</param>
    /// <param name="toUtc">Exclusive.</param>
    public static IReadOnlyList<ShiftDay> Between(
        IReadOnlyList<Shift> shifts, IReadOnlySet<DateOnly> closedDays, TimeZoneInfo zone, DateTime fromUtc, DateTime toUtc)
    {
        var found = new List<ShiftDay>();
        // Two days back, one on: as the working time does.
        var last = DateOnly.FromDateTime(toUtc).AddDays(1);
        for (var day = DateOnly.FromDateTime(fromUtc).AddDays(-2); day <= last; day = day.AddDays(1))
        {
            foreach (var shift in shifts.Where(s => !closedDays.Contains(day) && s.Days.Contains(day.DayOfWeek)))
            {
                var (start, end) = ShiftTime.Bounds(shift, day, zone);
                if (start < end && start < toUtc && end > fromUtc)
                {
                    found.Add(new ShiftDay(shift.Name, day, start, end));
                }
            }
        }

        return [.. found.OrderBy(s => s.StartUtc).ThenBy(s => s.EndUtc)];
    }

    /// <summary>The shift at work, the one that started last where several are; null when nobody is there.</summary>
    public static ShiftDay? At(IReadOnlyList<ShiftDay> shifts, DateTime utc) => shifts.LastOrDefault(s => s.StartUtc <= utc && utc < s.EndUtc);
}
