using PlateTickets.Tickets.Exchange.Messages;

namespace PlateTickets.Web.Exchange;

/// <summary>Sends nothing anywhere.</summary>
internal sealed class NoAddresses : IOutgoingAddresses
{
    public string? Refusal(string url) => "This program sends nothing to other programs yet.";
}
