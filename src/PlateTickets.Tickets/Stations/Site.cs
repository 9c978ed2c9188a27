using PlateTickets.Planning.Scheduling;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Stations;

/// <summary>The plate room: its name, its clock and its free rims on a sheet. One row.</summary>
public sealed class Site : IAudited
{
    public int Id { get; set; }

    public required string Name { get; set; }

    /// <summary>IANA name, such as "Europe/Berlin".</summary>
    public required string TimeZoneId { get; set; }

    /// <summary>In which units its people read lengths, unless one of them chooses otherwise.</summary>
    public LengthSystem Units { get; set; } = LengthSystem.Metric;

    /// <summary>True for the invented demo room: every page says so.</summary>
    public bool IsDemo { get; set; }

    /// <summary>Between two plates, for the knife; micrometres.</summary>
    public int KnifeGapUm { get; set; } = 10_000;

    /// <summary>At the two ends of a sheet, under the drum's clamps; micrometres.</summary>
    public int ClampMarginUm { get; set; } = 15_000;

    /// <summary>At the two sides of a sheet; micrometres.</summary>
    public int SideMarginUm { get; set; } = 10_000;

    /// <summary>A remnant with a shorter side is not kept; micrometres.</summary>
    public int LeastRemnantUm { get; set; } = 300_000;

    public List<ShiftEntry> Shifts { get; set; } = [];

    public List<ClosedDay> ClosedDays { get; set; } = [];

    public string AuditKey => Name;
}

/// <summary>A shift in local time with its breaks; an end at or before the start lies on the next day.</summary>
public sealed class ShiftEntry : IAudited
{
    public int Id { get; set; }

    public int SiteId { get; set; }

    public required string Name { get; set; }

    public List<DayOfWeek> Days { get; set; } = [];

    public TimeOnly Start { get; set; }

    public TimeOnly End { get; set; }

    public List<BreakSpan> Breaks { get; set; } = [];

    /// <summary>How many people load and unload in it; null where the plan may take it that there are always enough.</summary>
    public int? Operators { get; set; }

    public string AuditKey => Name;

    public Shift ToShift() => new(Name, Days, new LocalSpan(Start, End), [.. Breaks.Select(b => new LocalSpan(b.Start, b.End))]);
}

/// <summary>A break in local time.</summary>
public sealed class BreakSpan
{
    public TimeOnly Start { get; set; }

    public TimeOnly End { get; set; }
}

/// <summary>A day without work, such as a holiday.</summary>
public sealed class ClosedDay : IAudited
{
    public int Id { get; set; }

    public int SiteId { get; set; }

    public DateOnly Day { get; set; }

    public string Reason { get; set; } = "";

    public string AuditKey => $"{Day:yyyy-MM-dd}";
}
