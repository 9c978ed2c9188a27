using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Stations;

/// <summary>A machine of the room. It serves one or several stations.</summary>
public sealed class Equipment : IAudited
{
    public int Id { get; set; }

    public required string Name { get; set; }

    /// <summary>Its place in the address of its station page: "frame-1".</summary>
    public required string Slug { get; set; }

    public EquipmentKind Kind { get; set; }

    /// <summary>How many sheets at once: 1, except for drawers.</summary>
    public int Slots { get; set; } = 1;

    /// <summary>The stations that it serves.</summary>
    public List<Station> Serves { get; set; } = [];

    /// <summary>For a washer: the process it runs; null elsewhere.</summary>
    public WashoutProcess? Process { get; set; }

    /// <summary>For a line: attended seconds between two recipes, once it is empty.</summary>
    public int ChangeoverSeconds { get; set; }

    public double? DrumRpm { get; set; }

    public int? LaserChannels { get; set; }

    public double? LineLengthMm { get; set; }

    public double? LineGapMm { get; set; }

    /// <summary>How old a lamp reading may be before it is flagged.</summary>
    public int ReadingValidHours { get; set; } = 7 * 24;

    public string AuditKey => Name;
}
