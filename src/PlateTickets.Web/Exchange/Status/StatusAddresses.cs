using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Exchange.Status;

/// <summary>The whole address of an order's status page, as a customer can follow it.</summary>
internal sealed class StatusAddresses(StatusLinks links, IOptions<ExchangeOptions> exchange, IOptions<PlateRoomOptions> room) : IStatusAddresses
{
    public async Task<string?> FindAsync(int orderId, CancellationToken cancel) =>
        exchange.Value.ReachedAt(room.Value) is { Length: > 0 } address && await links.FindAsync(orderId, cancel) is { } token ? address + Urls.Status(token) : null;
}
