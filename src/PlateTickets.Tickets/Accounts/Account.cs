using Microsoft.AspNetCore.Identity;

namespace PlateTickets.Tickets.Accounts;

/// <summary>A person who signs in. The name is what the audit trail and the scans keep.</summary>
public sealed class Account : IdentityUser<int>, IAudited
{
    /// <summary>Longest name, in characters.</summary>
    public const int LongestName = 60;

    public Role Roles { get; set; }

    /// <summary>False when this person may not sign in any more; nothing is ever deleted.</summary>
    public bool IsActive { get; set; } = true;

    public DateTime MadeUtc { get; set; }

    /// <summary>SHA-256 of the badge's number as hex; null without a badge.</summary>
    [Secret]
    public string? BadgeHash { get; set; }

    [Secret]
    public string? PinHash { get; set; }

    [Secret]
    public override string? PasswordHash { get; set; }

    [NotAudited]
    public override string? SecurityStamp { get; set; }

    [NotAudited]
    public override string? ConcurrencyStamp { get; set; }

    [NotAudited]
    public override string? NormalizedUserName { get; set; }

    [NotAudited]
    public override string? NormalizedEmail { get; set; }

    [NotAudited]
    public override int AccessFailedCount { get; set; }

    [NotAudited]
    public DateTime? LastSignInUtc { get; set; }

    string IAudited.AuditKey => UserName ?? "";
}
