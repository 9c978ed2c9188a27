namespace PlateTickets.Tickets.Orders.Search;

/// <summary>
/// What a ticket is found by. The database keeps a full-text index over it by triggers; <see cref="TicketIndex"/> writes it in the transaction of
/// the change.
/// </summary>
public sealed class TicketText
{
    public int TicketId { get; set; }

    public Ticket? Ticket { get; set; }

    /// <summary>Numbers of ticket and sheets, customer, title, press, material, colours, lots.</summary>
    public required string Text { get; set; }

    /// <summary>The due day in the site's time zone, as words: "20261126 202611".</summary>
    public required string Days { get; set; }
}
