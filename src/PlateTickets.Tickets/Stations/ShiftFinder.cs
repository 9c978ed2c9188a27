namespace PlateTickets.Tickets.Stations;

/// <summary>A shift on the local day on which it began; without a shift the day's hours outside of all of them.</summary>
public sealed record ShiftOnDay(DateOnly Day, string? Name)
{
    public string Title => Name ?? "outside of the shifts";
}

/// <summary>In which shift something happened, breaks included. Of shifts that overlap it is the one that began last.</summary>
public static class ShiftFinder
{
    public static ShiftOnDay ShiftAt(this Room room, DateTime utc)
    {
        var local = SiteClock.Local(utc, room.Zone);
        var (day, time) = (DateOnly.FromDateTime(local), TimeOnly.FromDateTime(local));
        return room.Site.Shifts.Select(s => (Shift: s, Day: Began(s, day, time))).Where(s => s.Day is not null)
            .OrderByDescending(s => s.Day).ThenByDescending(s => s.Shift.Start)
            .Select(s => new ShiftOnDay(s.Day!.Value, s.Shift.Name)).FirstOrDefault() ?? new ShiftOnDay(day, null);
    }

    private static DateOnly? Began(ShiftEntry shift, DateOnly day, TimeOnly time)
    {
        var overnight = shift.End <= shift.Start;
        DateOnly? began = time >= shift.Start && (overnight || time < shift.End) ? day : overnight && time < shift.End ? day.AddDays(-1) : null;
        return began is { } first && shift.Days.Contains(first.DayOfWeek) ? began : null;
    }
}
