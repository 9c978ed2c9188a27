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

/// <summary>The trail keeps that this field changed, never what it was or is: passwords, PINs, keys and their hashes.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class SecretAttribute : Attribute;

/// <summary>The trail leaves this field out: it follows from another record, or the program counts it by itself.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class NotAuditedAttribute : Attribute;

/// <summary>
/// One change, or something else that happened, in the transaction that made it. Entries are a chain: each holds the hash of the one before
/// it and of itself. The database refuses to change or delete them.
/// </summary>
public sealed class AuditEntry
{
    /// <summary>Marks a field of the trail that is no field of a record but what happened, such as "(new)" or "(signed in)".</summary>
    public const string New = "(new)";

    public const string Deleted = "(deleted)";

    /// <summary>Stands for the value of a secret field.</summary>
    public const string Secret = "(secret)";

    /// <summary>Longest value that is kept whole.</summary>
    public const int LongestValue = 16_000;

    /// <summary>Its place in the chain, rising.</summary>
    public long Id { get; set; }

    /// <summary>To the microsecond.</summary>
    public DateTime AtUtc { get; set; }

    public required string By { get; set; }

    /// <summary>The kind of record, such as "Order".</summary>
    public required string Record { get; set; }

    public required string Key { get; set; }

    /// <summary>The field, or what happened in brackets.</summary>
    public required string Field { get; set; }

    public string? From { get; set; }

    public string? To { get; set; }

    /// <summary>SHA-256 over the hash before and this entry's content; empty in a room of an earlier version until it is chained.</summary>
    public byte[] Hash { get; set; } = [];
}

/// <summary>The end of the chain, in one row: what is cut off there shows against it.</summary>
public sealed class AuditHead
{
    public const int OnlyId = 1;

    public int Id { get; set; }

    /// <summary>How many entries there are.</summary>
    public long Count { get; set; }

    /// <summary>The last one's id; 0 without entries.</summary>
    public long LastId { get; set; }

    /// <summary>The last one's hash; zeros without entries.</summary>
    public required byte[] Hash { get; set; }
}
