namespace PlateTickets.Tickets.Board;

/// <summary>Which sheets and tickets a viewer wants to see; an empty name takes all.</summary>
public sealed record BoardFilter(string Customer = "", string Press = "", string Material = "")
{
    public static readonly BoardFilter All = new();

    public bool IsEmpty => Customer.Length + Press.Length + Material.Length == 0;

    public bool Takes(BoardSheet sheet) => IsEmpty || (Is(Material, sheet.Material) && sheet.Tickets.Any(Takes));

    public bool Takes(BoardTicket ticket) => Is(Customer, ticket.Customer) && Is(Press, ticket.Press);

    private static bool Is(string wanted, string name) => wanted.Length == 0 || string.Equals(wanted, name, StringComparison.OrdinalIgnoreCase);
}
