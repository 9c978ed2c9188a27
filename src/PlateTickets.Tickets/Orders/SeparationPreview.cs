namespace PlateTickets.Tickets.Orders;

/// <summary>The grey preview of a separation. A record of its own: lists of separations must not load pictures.</summary>
public sealed class SeparationPreview
{
    /// <summary>The same as the separation's.</summary>
    public int SeparationId { get; set; }

    public Separation? Separation { get; set; }

    public required byte[] Png { get; set; }
}
