using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Stations.Duty;

/// <summary>A machine is out of use from one instant to another, as far as is known.</summary>
public sealed class EquipmentDowntime : IAudited
{
    public int Id { get; set; }

    public int EquipmentId { get; set; }

    public DateTime FromUtc { get; set; }

    /// <summary>When it is expected back; brought forward when it is back sooner.</summary>
    public DateTime ToUtc { get; set; }

    public string Reason { get; set; } = "";

    /// <summary>The reason as it ends a part of a sentence: a colon and its words, or nothing.</summary>
    public string Because => Reason.TrimEnd('.', ' ') is { Length: > 0 } reason ? $": {reason}" : "";

    public required string MadeBy { get; set; }

    public string AuditKey => $"equipment {EquipmentId}";
}
