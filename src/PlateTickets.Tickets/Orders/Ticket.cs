using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Orders;

public enum TicketState
{
    /// <summary>The order is in, separations are missing.</summary>
    WaitingForFiles = 1,

    /// <summary>Laid out on sheets, no sheet has been scanned yet.</summary>
    Ready = 2,

    /// <summary>At least one sheet has been scanned.</summary>
    InWork = 3,

    /// <summary>The last plate of the set is done.</summary>
    Done = 4,

    Cancelled = 5,

    /// <summary>Its files are complete; plates of it wait for a sheet, to be laid out with those of other tickets.</summary>
    WaitingForLayout = 6,
}

/// <summary>The job ticket of one order: its set of plates and how far they are.</summary>
public sealed class Ticket : IAudited, IVersioned
{
    /// <summary>The same as the order's.</summary>
    public int Id { get; set; }

    public Order? Order { get; set; }

    public TicketState State { get; set; }

    /// <summary>The weight of a ticket in a hurry: its minute late counts as ten of another's.</summary>
    public const double RushWeight = 10;

    /// <summary>Importance in the plan; 1 is usual.</summary>
    public double Weight { get; set; } = 1;

    public bool IsRush => Weight >= RushWeight;

    public DateTime? DoneUtc { get; set; }

    /// <summary>Why it was cancelled; empty for a ticket that is not.</summary>
    public string CancelledBecause { get; set; } = "";

    public int Version { get; set; }

    public List<Separation> Separations { get; set; } = [];

    public List<Plate> Plates { get; set; } = [];

    public string AuditKey => Order?.Number ?? $"ticket {Id}";
}
