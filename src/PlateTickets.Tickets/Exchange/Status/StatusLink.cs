using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;

namespace PlateTickets.Tickets.Exchange.Status;

/// <summary>An address under which a customer sees how far an order is, without signing in: whoever has it may look.</summary>
public sealed class StatusLink : IAudited
{
    public int Id { get; set; }

    public int OrderId { get; set; }

    public Order? Order { get; set; }

    /// <summary>SHA-256 of the token, as hex: what an address is found by.</summary>
    [Secret]
    public required string Hash { get; set; }

    /// <summary>The token, encrypted with the program's keys, so that it can be shown and mailed again.</summary>
    [Secret]
    public required string Token { get; set; }

    public DateTime MadeUtc { get; set; }

    public required string MadeBy { get; set; }

    public DateTime? EndedUtc { get; set; }

    /// <summary>To the hour.</summary>
    [NotAudited]
    public DateTime? LastReadUtc { get; set; }

    public string AuditKey => $"status link {Id}";
}
