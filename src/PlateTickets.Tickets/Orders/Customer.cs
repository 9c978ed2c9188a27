using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Orders;

public sealed class Customer : IAudited
{
    public int Id { get; set; }

    public required string Name { get; set; }

    public string AuditKey => Name;
}
