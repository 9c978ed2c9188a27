namespace PlateTickets.Tickets.Orders;

/// <summary>The physical printing plate of one separation, one per copy. Width runs across the web, length around the cylinder; micrometres.</summary>
public sealed class Plate
{
    public int Id { get; set; }

    public int TicketId { get; set; }

    public Ticket? Ticket { get; set; }

    public int SeparationId { get; set; }

    public Separation? Separation { get; set; }

    /// <summary>1 up to the order's copies.</summary>
    public int Copy { get; set; }

    public int WidthUm { get; set; }

    public int LengthUm { get; set; }

    /// <summary>It is spoilt and another plate is made in its place, or it is not wanted any more. It stays where it lay, and counts nowhere.</summary>
    public bool OutOfSet { get; set; }

    /// <summary>The spoilt plate that this one takes the place of.</summary>
    public int? RemakeOfPlateId { get; set; }
}
