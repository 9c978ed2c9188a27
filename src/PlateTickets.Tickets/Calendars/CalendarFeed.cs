using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Calendars;

/// <summary>What a calendar shows.</summary>
[Flags]
public enum CalendarContent
{
    None = 0,

    /// <summary>When tickets are due.</summary>
    DueTimes = 1,

    /// <summary>When lamps are to be read and step tests to be made.</summary>
    Checks = 2,
}

/// <summary>An address from which a calendar program reads, without signing in: whoever has the address may read it.</summary>
public sealed class CalendarFeed : IAudited
{
    public int Id { get; set; }

    /// <summary>Whose it is: it ends when that person may not look at the room any more.</summary>
    public int AccountId { get; set; }

    public Account? Account { get; set; }

    public CalendarContent Shows { get; set; }

    /// <summary>SHA-256 of the secret in the address, as hex.</summary>
    [Secret]
    public required string Hash { get; set; }

    public DateTime MadeUtc { get; set; }

    /// <summary>To the hour.</summary>
    [NotAudited]
    public DateTime? LastReadUtc { get; set; }

    public DateTime? RemovedUtc { get; set; }

    string IAudited.AuditKey => $"calendar {Id}";
}
