using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Orders;

/// <summary>What the customer asked for.</summary>
public sealed class Order : IAudited, IVersioned
{
    public int Id { get; set; }

    /// <summary>The number of the order and of its ticket.</summary>
    public required string Number { get; set; }

    public int CustomerId { get; set; }

    public Customer? Customer { get; set; }

    public required string Title { get; set; }

    public int PressId { get; set; }

    public Press? Press { get; set; }

    /// <summary>Printed length of one turn in micrometres, as it was when the order came in.</summary>
    public int RepeatUm { get; set; }

    public int MaterialId { get; set; }

    public Material? Material { get; set; }

    public DateTime DueUtc { get; set; }

    /// <summary>Plates wanted of each colour; 1 or more.</summary>
    public int Copies { get; set; } = 1;

    /// <summary>What the customer calls the order, such as a purchase order's number; empty when not said.</summary>
    public string CustomerReference { get; set; } = "";

    /// <summary>Where the customer is told of promise, risk and finish, as a mail address; empty for nowhere.</summary>
    public string ContactMail { get; set; } = "";

    public DateTime EnteredUtc { get; set; }

    public required string EnteredBy { get; set; }

    public int Version { get; set; }

    public Ticket? Ticket { get; set; }

    public string AuditKey => Number;
}
