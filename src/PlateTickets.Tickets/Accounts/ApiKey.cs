namespace PlateTickets.Tickets.Accounts;

/// <summary>Lets a program in. The key itself is shown once and never kept.</summary>
public sealed class ApiKey : IAudited
{
    public int Id { get; set; }

    /// <summary>What the trail calls the program.</summary>
    public required string Name { get; set; }

    public Role Roles { get; set; }

    /// <summary>The first characters, by which people tell keys apart.</summary>
    public required string Start { get; set; }

    /// <summary>SHA-256 of the key as hex. The key is 256 random bits, so no slower hash is needed.</summary>
    [Secret]
    public required string Hash { get; set; }

    public DateTime MadeUtc { get; set; }

    public required string MadeBy { get; set; }

    public DateTime ExpiresUtc { get; set; }

    /// <summary>To the minute.</summary>
    [NotAudited]
    public DateTime? LastUsedUtc { get; set; }

    public DateTime? RevokedUtc { get; set; }

    string IAudited.AuditKey => Name;

    public bool IsGood(DateTime nowUtc) => RevokedUtc is null && ExpiresUtc > nowUtc;
}
