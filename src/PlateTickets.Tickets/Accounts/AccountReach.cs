using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Sites;

namespace PlateTickets.Tickets.Accounts;

/// <summary>
/// Whose accounts somebody may change. In a room that stands alone: everybody's. In a group, who is administrator at every site reaches all accounts, and
/// the administrator of one site those of people who work at that site only: with another's password link they would have that person's rights elsewhere.
/// </summary>
internal sealed class AccountReach(PlateRoomDb db, SiteKey site)
{
    /// <param name="by">Who acts: an account's name; anything else is the program itself or its command line, which reach all.</param>
    /// <param name="account">Whose account; null for a new one.</param>
    /// <param name="everySite">Does the change count at other sites too?</param>
    /// <exception cref="PlateRoomException">It is out of reach.</exception>
    public async Task RequireAsync(string by, Account? account, bool everySite, CancellationToken cancel = default)
    {
        if (site.IsAlone)
        {
            return;
        }

        var actor = await db.Users.AsNoTracking().Where(a => a.UserName == by).Select(a => new { a.Id, a.Roles }).SingleOrDefaultAsync(cancel);
        if (actor is null || actor.Roles.HasFlag(Role.Administrator))
        {
            return;
        }

        if (everySite)
        {
            throw new PlateRoomException("Only an administrator of every site gives or takes roles that count at every site.");
        }

        if (account is not null && account.Id != actor.Id && (account.Roles != Role.None || await db.SiteRoles.AnyAsync(r => r.AccountId == account.Id && r.Site != site.Value, cancel)))
        {
            throw new PlateRoomException($"{account.UserName} works at other sites too. Ask an administrator of every site.");
        }
    }

    /// <summary>Takes what the company's sign-in says of somebody here, beside what an administrator said for every site. True when that is new; written with the next save.</summary>
    public async Task<bool> TakeAsync(Account account, Role roles, CancellationToken cancel = default)
    {
        if (site.IsAlone)
        {
            (var before, account.Roles) = (account.Roles, roles);
            return before != roles;
        }

        var here = await db.SiteRoles.Where(r => r.AccountId == account.Id && r.Site == site.Value).Select(r => r.Roles).SingleOrDefaultAsync(cancel);
        if (here == (roles & ~account.Roles))
        {
            return false;
        }

        await GiveHereAsync(account, roles & ~account.Roles, cancel);
        return true;
    }

    /// <summary>Gives somebody roles at this site, or at every site; written with the next save.</summary>
    public async Task GiveAsync(Account account, Role roles, bool everySite, CancellationToken cancel = default)
    {
        account.Roles = site.IsAlone || everySite ? roles : Role.None;
        if (!site.IsAlone)
        {
            await GiveHereAsync(account, everySite ? Role.None : roles, cancel);
        }
    }

    /// <summary>Gives somebody roles at this site beside those at every site; written with the next save.</summary>
    public async Task GiveHereAsync(Account account, Role roles, CancellationToken cancel = default)
    {
        var here = await db.SiteRoles.Include(r => r.Account).SingleOrDefaultAsync(r => r.AccountId == account.Id && r.Site == site.Value, cancel);
        switch (here)
        {
            case null when roles != Role.None:
                db.SiteRoles.Add(new SiteRole { AccountId = account.Id, Account = account, Site = site.Value, Roles = roles });
                break;
            case not null when roles != Role.None:
                here.Roles = roles;
                break;
            case not null:
                db.SiteRoles.Remove(here);
                break;
        }
    }
}
