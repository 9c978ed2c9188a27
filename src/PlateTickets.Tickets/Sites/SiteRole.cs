using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Sites;

/// <summary>What somebody is at one site of a group, in addition to what the account is at every site.</summary>
public sealed class SiteRole : IAudited
{
    public int AccountId { get; set; }

    public Account? Account { get; set; }

    /// <summary>The site's key.</summary>
    public required string Site { get; set; }

    public Role Roles { get; set; }

    string IAudited.AuditKey => $"{Account?.UserName ?? $"account {AccountId}"} at {Site}";
}
