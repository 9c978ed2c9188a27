using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>Puts the roles of an account into its cookie.</summary>
internal sealed class RoomPrincipals(UserManager<Account> users, IOptions<IdentityOptions> options) : UserClaimsPrincipalFactory<Account>(users, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Account user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(RoomClaims.Of(user.Roles));
        return identity;
    }
}

/// <summary>An account that is switched off cannot sign in.</summary>
internal sealed class ActiveAccounts : IUserConfirmation<Account>
{
    public Task<bool> IsConfirmedAsync(UserManager<Account> manager, Account user) => Task.FromResult(user.IsActive);
}
