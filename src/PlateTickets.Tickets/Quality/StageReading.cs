using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Quality;

/// <summary>What is read at a station.</summary>
public enum ReadingKind
{
    /// <summary>The lot on the raw sheet's label.</summary>
    Lot = 1,

    /// <summary>Solid polymer after back exposure, micrometres.</summary>
    Floor = 2,

    /// <summary>The frame's lamps by radiometer, µW/cm².</summary>
    Lamps = 3,

    /// <summary>Height above the floor, micrometres.</summary>
    Relief = 4,

    /// <summary>Total thickness, micrometres.</summary>
    Thickness = 5,

    /// <summary>What the eye sees: the defects, or none.</summary>
    Visual = 6,
}

public enum ReadingState
{
    InLimits = 1,

    /// <summary>Out of limits, and nobody has decided: the sheet goes no further.</summary>
    Open = 2,

    /// <summary>Out of limits and accepted with a reason.</summary>
    Accepted = 3,

    /// <summary>The sheet is made again.</summary>
    Remade = 4,

    /// <summary>The sheet is on hold for it.</summary>
    OnHold = 5,
}

/// <summary>One reading of one sheet, and what was decided when it was out of limits. Whole numbers; see the kind for the unit.</summary>
public sealed class StageReading : IAudited, IVersioned
{
    public int Id { get; set; }

    public int SheetId { get; set; }

    public Sheet? Sheet { get; set; }

    public Station Station { get; set; }

    public int? EquipmentId { get; set; }

    public ReadingKind Kind { get; set; }

    public int? Value { get; set; }

    /// <summary>The least that is right; null for no limit.</summary>
    public int? From { get; set; }

    public int? To { get; set; }

    /// <summary>The lot, or the defects seen; empty elsewhere.</summary>
    public string Text { get; set; } = "";

    public ReadingState State { get; set; }

    /// <summary>The whole finding in a sentence.</summary>
    public required string Sentence { get; set; }

    public DateTime AtUtc { get; set; }

    public required string By { get; set; }

    public string Reason { get; set; } = "";

    public string DecidedBy { get; set; } = "";

    public DateTime? DecidedUtc { get; set; }

    public int Version { get; set; }

    public string AuditKey => $"{Kind} of sheet {SheetId} at {Station}";
}
