using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>What a name of another program stands for.</summary>
public enum NameKind
{
    Customer = 1,
    Press = 2,
    Material = 3,
}

/// <summary>A name that another program uses for something of this room: a person said once what is meant, and it is not asked again.</summary>
public sealed class KnownName : IAudited
{
    public int Id { get; set; }

    public NameKind Kind { get; set; }

    /// <summary>As the other program writes it.</summary>
    public required string Text { get; set; }

    /// <summary>The id of the customer, press or material.</summary>
    public int MeansId { get; set; }

    public string AuditKey => $"{Kind} “{Text}”";
}
