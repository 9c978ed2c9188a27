namespace PlateTickets.Tickets.Accounts;

/// <summary>A shared tablet of the room, on which people sign in by badge and PIN.</summary>
public sealed class Tablet : IAudited
{
    public int Id { get; set; }

    public required string Name { get; set; }

    /// <summary>SHA-256 of the secret in the tablet's cookie, as hex.</summary>
    [Secret]
    public required string Hash { get; set; }

    public DateTime RegisteredUtc { get; set; }

    public required string RegisteredBy { get; set; }

    public DateTime? RemovedUtc { get; set; }

    string IAudited.AuditKey => Name;
}
