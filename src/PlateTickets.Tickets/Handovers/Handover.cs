using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Handovers;

public enum HandoverState
{
    /// <summary>Notes are being written.</summary>
    Draft = 1,

    /// <summary>Handed over with its facts; nothing of it changes any more.</summary>
    Closed = 2,

    /// <summary>The next shift has read it.</summary>
    Confirmed = 3,
}

/// <summary>What one shift tells the next. There is one for each shift of each day.</summary>
public sealed class Handover : IAudited, IVersioned
{
    public const int LongestNotes = 8000;
    public const int LongestRemark = 2000;

    public int Id { get; set; }

    public required string ShiftName { get; set; }

    /// <summary>The local day on which the shift began.</summary>
    public DateOnly Day { get; set; }

    public DateTime StartUtc { get; set; }

    public DateTime EndUtc { get; set; }

    public HandoverState State { get; set; } = HandoverState.Draft;

    // Saved at every pause of typing: the trail gets them once, when the shift is closed.
    [NotAudited]
    public string Notes { get; set; } = "";

    [NotAudited]
    public string NotesBy { get; set; } = "";

    [NotAudited]
    public DateTime? NotesUtc { get; set; }

    /// <summary>The facts as they were when it was closed; null before.</summary>
    [NotAudited]
    public HandoverFacts? Facts { get; set; }

    public string ClosedBy { get; set; } = "";

    public DateTime? ClosedUtc { get; set; }

    public string ConfirmedBy { get; set; } = "";

    public DateTime? ConfirmedUtc { get; set; }

    public string Remark { get; set; } = "";

    public int Version { get; set; }

    public string AuditKey => $"{Day:yyyy-MM-dd}, {ShiftName}";
}
