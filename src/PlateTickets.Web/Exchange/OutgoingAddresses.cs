using PlateTickets.Tickets.Exchange.Messages;

namespace PlateTickets.Web.Exchange;

/// <summary>Addresses of subscriptions and returns obey the same rules as all others.</summary>
internal sealed class OutgoingAddresses(OutgoingHttp http) : IOutgoingAddresses
{
    public string? Refusal(string url) => http.Refusal(url);
}
