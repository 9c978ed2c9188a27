namespace PlateTickets.Tickets.Exchange.Status;

/// <summary>Where a customer sees how far an order is.</summary>
public interface IStatusAddresses
{
    /// <summary>The whole address; null where the order has none.</summary>
    Task<string?> FindAsync(int orderId, CancellationToken cancel);
}
