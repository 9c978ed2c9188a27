using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Stations.Duty;

/// <summary>Operators more (overtime) or fewer (somebody is missing) than the shifts say, from one instant to another.</summary>
public sealed class DutyChange : IAudited
{
    public int Id { get; set; }

    public DateTime FromUtc { get; set; }

    public DateTime ToUtc { get; set; }

    /// <summary>Below 0 for people who are missing.</summary>
    public int People { get; set; }

    public string Reason { get; set; } = "";

    public required string MadeBy { get; set; }

    public string AuditKey => "operators on duty";
}
