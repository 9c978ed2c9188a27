namespace PlateTickets.Tickets.Accounts;

/// <summary>A record whose changes are kept with who, when, from what to what.</summary>
public interface IAudited
{
    /// <summary>What a person calls this record.</summary>
    string AuditKey { get; }
}

/// <summary>A record with an optimistic concurrency token, counted up at each change.</summary>
public interface IVersioned
{
    int Version { get; set; }
}

/// <summary>One change that a person or the program made. Added in the same transaction as the change.</summary>
public sealed class AuditEntry
{
    public long Id { get; set; }

    public DateTime AtUtc { get; set; }

    public required string By { get; set; }

    /// <summary>The kind of record, such as "Order".</summary>
    public required string Record { get; set; }

    public required string Key { get; set; }

    /// <summary>The field, or "(new)".</summary>
    public required string Field { get; set; }

    public string? From { get; set; }

    public string? To { get; set; }
}
