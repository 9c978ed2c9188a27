namespace PlateTickets.Tickets.Accounts;

/// <summary>A key of the cookies, as the framework writes it, in a room of several nodes. A room of one node keeps its keys in its data folder.</summary>
public sealed class ProtectionKey
{
    public int Id { get; set; }

    public required string Name { get; set; }

    public required string Xml { get; set; }
}
