using PlateTickets.Process;
using PlateTickets.Tickets.Orders;

namespace PlateTickets.Tickets.Exchange.Events;

public enum TicketEventKind
{
    Entered = 1,

    /// <summary>Due time or copies are others now.</summary>
    Changed = 2,

    /// <summary>The plan says for the first time, or after a change, by when it is done.</summary>
    Promised = 3,

    /// <summary>One chance in five or more that it comes late.</summary>
    AtRisk = 4,

    /// <summary>By the plan it comes late, or its due time is over.</summary>
    Late = 5,

    /// <summary>After it was at risk or late: it is not any more.</summary>
    OnTimeAgain = 6,

    Held = 7,
    GoingOn = 8,

    /// <summary>A sheet of it began at a station.</summary>
    StageStarted = 9,

    StageDone = 10,

    /// <summary>A plate of it is spoilt and made again.</summary>
    PlateRemade = 11,

    Finished = 12,
    Cancelled = 13,
}

/// <summary>Something that happened to a ticket and that others may want to know. Written in the transaction of what happened; never changed but for <see cref="Told"/>.</summary>
public sealed class TicketEvent
{
    public long Id { get; set; }

    public int TicketId { get; set; }

    public Ticket? Ticket { get; set; }

    public TicketEventKind Kind { get; set; }

    public DateTime AtUtc { get; set; }

    public required string By { get; set; }

    /// <summary>The sheet that it happened to; null for the whole ticket.</summary>
    public int? SheetId { get; set; }

    public Station? Station { get; set; }

    /// <summary>The promise, or the new due time; null where there is none.</summary>
    public DateTime? ForUtc { get; set; }

    /// <summary>The reason of a hold or cancellation, the defect of a remade plate.</summary>
    public string Why { get; set; } = "";

    /// <summary>Its deliveries are made: nothing more comes of it.</summary>
    public bool Told { get; set; }
}
