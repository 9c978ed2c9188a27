using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Sites;

namespace PlateTickets.Web.Accounts;

/// <summary>Puts the roles of an account into its cookie: those at every site, and those at each one.</summary>
internal sealed class RoomPrincipals(UserManager<Account> users, PlateRoomDb db, SiteKey site, IOptions<IdentityOptions> options) : UserClaimsPrincipalFactory<Account>(users, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Account user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(RoomClaims.Of(user.Roles));
        if (!site.IsAlone)
        {
            identity.AddClaims((await db.SiteRoles.AsNoTracking().Where(r => r.AccountId == user.Id).ToListAsync()).Select(r => RoomClaims.Of(RoomClaims.RolesAt + r.Site, r.Roles)));
        }

        return identity;
    }
}

/// <summary>A cookie serves all sites of a group: what its person is at this one is picked out with each request.</summary>
internal sealed class RolesHere(SiteKey site) : IClaimsTransformation
{
    private readonly string _at = RoomClaims.RolesAt + site;

    public Task<ClaimsPrincipal> TransformAsync(ClaimsPrincipal principal)
    {
        if (site.IsAlone || principal.HasClaim(c => c.Type == RoomClaims.RolesHere) || principal.FindFirst(_at) is not { } here)
        {
            return Task.FromResult(principal);
        }

        // What comes in is what the cookie holds, and may be written back into it.
        var who = principal.Clone();
        ((ClaimsIdentity)who.Identity!).AddClaim(new Claim(RoomClaims.RolesHere, here.Value, here.ValueType));
        return Task.FromResult(who);
    }
}

/// <summary>An account that is switched off cannot sign in.</summary>
internal sealed class ActiveAccounts : IUserConfirmation<Account>
{
    public Task<bool> IsConfirmedAsync(UserManager<Account> manager, Account user) => Task.FromResult(user.IsActive);
}
