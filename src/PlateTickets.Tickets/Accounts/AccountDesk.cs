using System.Security.Cryptography;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Process;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sites;

namespace PlateTickets.Tickets.Accounts;

/// <summary>With this code a person chooses a password, once, within three days.</summary>
public sealed record Invitation(int AccountId, string Name, string Code);

/// <summary>A badge and its PIN, shown once.</summary>
public sealed record NewBadge(string Name, string Number, string Pin);

/// <summary>An account in the list of those of a room.</summary>
/// <param name="Account">The account; its own roles count at every site.</param>
/// <param name="Here">What the person is at this site in addition.</param>
/// <param name="Elsewhere">Other sites where the person works.</param>
public sealed record AccountLine(Account Account, Role Here, IReadOnlyList<string> Elsewhere)
{
    public Role Roles => Account.Roles | Here;
}

/// <summary>Makes accounts and changes what they may do. Each operation has a database context of its own.</summary>
public sealed class AccountDesk(IServiceScopeFactory scopes, SiteKey site, TimeProvider clock)
{
    /// <summary>Fewest and most digits of a PIN.</summary>
    public const int ShortestPin = 6;
    public const int LongestPin = 8;

    private const string Provider = "OpenIdConnect";

    /// <summary>An account lost or won rights: pages that it has open must know.</summary>
    public event Action<int>? Changed;

    /// <summary>Told when nobody knows which accounts changed.</summary>
    public event Action? AllChanged;

    /// <summary>Says that an account was changed elsewhere.</summary>
    public void TellChanged(int id) => Changed?.Invoke(id);

    /// <summary>Says that accounts may have changed elsewhere.</summary>
    public void TellAllChanged() => AllChanged?.Invoke();

    /// <summary>Accounts by name, at most 500; at a site those of the people who may come in there.</summary>
    /// <param name="ofAllSites">Also those of people who work at other sites only.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task<IReadOnlyList<AccountLine>> ListAsync(bool ofAllSites = false, CancellationToken cancel = default)
    {
        await using var work = new Work(scopes, site, "");
        var accounts = work.Db.Users.AsNoTracking();
        if (!site.IsAlone && !ofAllSites)
        {
            accounts = accounts.Where(a => a.Roles != Role.None || work.Db.SiteRoles.Any(r => r.AccountId == a.Id && r.Site == site.Value));
        }

        var listed = await accounts.OrderByDescending(a => a.IsActive).ThenBy(a => a.NormalizedUserName).Take(500).ToListAsync(cancel);
        var ids = listed.ConvertAll(a => a.Id);
        var roles = site.IsAlone ? [] : await work.Db.SiteRoles.AsNoTracking().Where(r => ids.Contains(r.AccountId)).ToListAsync(cancel);
        var byAccount = roles.ToLookup(r => r.AccountId);
        return listed.ConvertAll(a => new AccountLine(
            a, byAccount[a.Id].FirstOrDefault(r => r.Site == site.Value)?.Roles ?? Role.None, [.. byAccount[a.Id].Select(r => r.Site).Where(k => k != site.Value).Order(StringComparer.Ordinal)]));
    }

    public async Task<bool> AnyAsync(CancellationToken cancel = default)
    {
        await using var work = new Work(scopes, site, "");
        return await work.Db.Users.AnyAsync(cancel);
    }

    /// <summary>A new account without a password, and the code with which the person chooses one.</summary>
    /// <param name="name">The name that the audit trail and scans keep.</param>
    /// <param name="roles">One role or more.</param>
    /// <param name="by">Who makes it.</param>
    /// <param name="everySite">Do the roles count at every site of the group, or at this one only? In a room that stands alone it makes no difference.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">A name that is empty, too long or taken; no role; roles at every site from who may not give them.</exception>
    public async Task<Invitation> CreateAsync(string name, Role roles, string by, bool everySite = true, CancellationToken cancel = default)
    {
        await using var work = new Work(scopes, site, by);
        await work.Reach.RequireAsync(by, null, everySite, cancel);
        // Without its roles at a site the account could do nothing, and its name would be taken.
        await using var both = await work.Db.BeginWriteAsync(cancel);
        var account = await AddAsync(work, name, roles, null, everySite, cancel);
        await both.CommitAsync(cancel);
        return await InviteAsync(work, account);
    }

    /// <summary>The first account of a room: a manager who also keeps the accounts.</summary>
    /// <exception cref="PlateRoomException">There is an account already, or name or password are refused.</exception>
    public async Task<Account> FirstManagerAsync(string name, string password, CancellationToken cancel = default)
    {
        await using var work = new Work(scopes, site, name.Trim());
        if (await work.Db.Users.AnyAsync(cancel))
        {
            throw new PlateRoomException("This room has its first manager already. Sign in, or ask that person for an account.");
        }

        return await AddAsync(work, name, Role.Manager | Role.Administrator, password, everySite: true, cancel);
    }

    /// <summary>The invented person of the demo room who has this role; has no password, so nobody signs in from elsewhere.</summary>
    public async Task<Account> DemoAsync(Role role, CancellationToken cancel = default)
    {
        await using var work = new Work(scopes, site, "Demo");
        if (!await work.Db.Sites.AnyAsync(s => s.IsDemo, cancel))
        {
            throw new PlateRoomException("This is no demo room.");
        }

        var name = $"Demo {role.Title()}";
        return await work.Users.FindByNameAsync(name) ?? await AddAsync(work, name, role, null, everySite: true, cancel);
    }

    /// <summary>
    /// The account of somebody whom the house's own provider knows; made at the first sign-in. The provider's groups say the roles, each time anew.
    /// </summary>
    /// <param name="provider">The provider's address.</param>
    /// <param name="subject">The provider's own, lasting name of the person (claim "sub").</param>
    /// <param name="name">The name that the audit trail and scans keep.</param>
    /// <param name="roles">What the provider's groups allow.</param>
    /// <exception cref="PlateRoomException">No role, the account is switched off, or somebody else has this name here.</exception>
    public async Task<Account> FromProviderAsync(string provider, string subject, string name, Role roles)
    {
        await using var work = new Work(scopes, site, name);
        // Hashed, so that any length fits the key.
        var key = SecretText.Hash($"{provider}\n{subject}");
        var account = await work.Users.FindByLoginAsync(Provider, key);
        if (account is not null)
        {
            work.Db.ActingAs = account.UserName!;
        }

        if (account?.IsActive == false)
        {
            throw new PlateRoomException("Your account in this plate room is switched off. An administrator can switch it on again.");
        }

        if (roles == Role.None)
        {
            throw new PlateRoomException("Your company account has no role in this plate room. Ask your administrator to put you into a group that has one.");
        }

        if (account is null)
        {
            // A name alone proves nothing: an account that is here already is never taken over by one that is called the same.
            if (await work.Users.FindByNameAsync(name) is not null)
            {
                throw new PlateRoomException($"Somebody is called {name} here already and signs in with a password. Ask an administrator to change one of the two names.");
            }

            // Without its login the account could never be signed in to, and its name would be taken.
            await using var both = await work.Db.BeginWriteAsync();
            account = await AddAsync(work, name, roles, null, everySite: false, default);
            Check(await work.Users.AddLoginAsync(account, new UserLoginInfo(Provider, key, provider)));
            await both.CommitAsync();
        }
        else if (await work.Reach.TakeAsync(account, roles))
        {
            Check(await work.Users.UpdateAsync(account));
            await EndSessionsAsync(work, account);
        }

        return account;
    }

    /// <summary>A new code to choose a password with; the old password goes on until it is used.</summary>
    public async Task<Invitation> InviteAsync(int id, string by)
    {
        await using var work = new Work(scopes, site, by);
        return await InviteAsync(work, await ReachAsync(work, id, by));
    }

    /// <summary>Chooses a password with an invitation's code.</summary>
    /// <exception cref="PlateRoomException">The code is used, too old or not this person's; the password is refused.</exception>
    public async Task<Account> ChoosePasswordAsync(int id, string code, string password)
    {
        await using var work = new Work(scopes, site, "");
        var account = await work.Users.FindByIdAsync(id.ToString(System.Globalization.CultureInfo.InvariantCulture));
        if (account is null || !account.IsActive)
        {
            throw new PlateRoomException("This link is not good any more. Ask for a new one.");
        }

        work.Db.ActingAs = account.UserName!;
        var result = await work.Users.ResetPasswordAsync(account, code, PasswordRules.Normal(password));
        if (result.Errors.Any(e => e.Code == nameof(IdentityErrorDescriber.InvalidToken)))
        {
            throw new PlateRoomException("This link is not good any more: it was used, or three days are over. Ask for a new one.");
        }

        Check(result);
        await work.Users.SetLockoutEndDateAsync(account, null);
        Changed?.Invoke(id);
        return account;
    }

    /// <summary>Gives somebody roles at every site, or at this one and then nowhere else but where other sites say so.</summary>
    /// <param name="id">Whose.</param>
    /// <param name="roles">One role or more; none takes somebody's rights at this site of a group away.</param>
    /// <param name="by">Who gives them.</param>
    /// <param name="everySite">In a room that stands alone it makes no difference.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">No role is left, nobody would be left who keeps accounts, or the account is out of reach.</exception>
    public async Task SetRolesAsync(int id, Role roles, string by, bool everySite = true, CancellationToken cancel = default)
    {
        if (roles == Role.None && (site.IsAlone || everySite))
        {
            throw new PlateRoomException("Choose one role or more. To keep somebody out, switch the account off.");
        }

        await ChangeAsync(id, by, site.IsAlone || everySite ? roles : Role.None, null, (work, a) => work.Reach.GiveAsync(a, roles, everySite, cancel), everySite, cancel);
    }

    /// <summary>Switches an account off or on. Nothing is deleted: the trail goes on naming it.</summary>
    /// <exception cref="PlateRoomException">Nobody would be left who keeps accounts.</exception>
    public Task SetActiveAsync(int id, bool active, string by, CancellationToken cancel = default) => ChangeAsync(id, by, null, active, (_, a) => Task.FromResult(a.IsActive = active), everySite: false, cancel);

    /// <summary>Lets somebody try again who typed a wrong password too often.</summary>
    public async Task UnlockAsync(int id, string by)
    {
        await using var work = new Work(scopes, site, by);
        var account = await ReachAsync(work, id, by);
        Check(await work.Users.SetLockoutEndDateAsync(account, null));
        Check(await work.Users.ResetAccessFailedCountAsync(account));
    }

    /// <summary>A new badge with a new PIN; an old one stops at once.</summary>
    public async Task<NewBadge> GiveBadgeAsync(int id, string by)
    {
        await using var work = new Work(scopes, site, by);
        var account = await ReachAsync(work, id, by);
        var badge = BadgeNumber();
        var pin = NewPin();
        account.BadgeHash = SecretText.Hash(badge);
        account.PinHash = work.Users.PasswordHasher.HashPassword(account, pin);
        Check(await work.Users.UpdateAsync(account));
        return new NewBadge(account.UserName!, badge, pin);
    }

    public async Task TakeBadgeAsync(int id, string by)
    {
        await using var work = new Work(scopes, site, by);
        var account = await ReachAsync(work, id, by);
        account.BadgeHash = account.PinHash = null;
        Check(await work.Users.UpdateAsync(account));
        await EndSessionsAsync(work, account);
    }

    /// <summary>The person's own choice of PIN.</summary>
    /// <exception cref="PlateRoomException">No badge, or a PIN that is too short, too long or too simple.</exception>
    public async Task SetPinAsync(int id, string pin, string by)
    {
        if (PinRefusal(pin) is { } refusal)
        {
            throw new PlateRoomException(refusal);
        }

        await using var work = new Work(scopes, site, by);
        var account = await FindAsync(work, id);
        if (account.BadgeHash is null)
        {
            throw new PlateRoomException("A PIN goes with a badge. Ask for a badge first.");
        }

        account.PinHash = work.Users.PasswordHasher.HashPassword(account, pin);
        Check(await work.Users.UpdateAsync(account));
    }

    /// <summary>Takes away a second factor that was lost with its telephone.</summary>
    public async Task ForgetSecondFactorAsync(int id, string by)
    {
        await using var work = new Work(scopes, site, by);
        var account = await ReachAsync(work, id, by);
        Check(await work.Users.SetTwoFactorEnabledAsync(account, false));
        Check(await work.Users.ResetAuthenticatorKeyAsync(account));
        await EndSessionsAsync(work, account);
    }

    /// <summary>Ends all sessions of an account, everywhere.</summary>
    public async Task EndSessionsAsync(int id, string by)
    {
        await using var work = new Work(scopes, site, by);
        await EndSessionsAsync(work, await ReachAsync(work, id, by));
    }

    /// <summary>Who holds this badge, when the PIN is right.</summary>
    /// <exception cref="PlateRoomException">Badge or PIN are wrong, the account is off, or there were too many wrong tries.</exception>
    public async Task<Account> ByBadgeAsync(string badge, string pin, CancellationToken cancel = default)
    {
        const string Wrong = "Badge and PIN do not go together. Scan the badge again and type its PIN.";
        await using var work = new Work(scopes, site, "");
        var read = TrackingNumber.Read(badge);
        if (read.Kind != NumberKind.Badge)
        {
            throw new PlateRoomException("That is no badge. Scan the code on the badge.");
        }

        var hash = SecretText.Hash(read.Number!);
        var account = await work.Db.Users.SingleOrDefaultAsync(a => a.BadgeHash == hash, cancel);
        if (account?.PinHash is null || !account.IsActive)
        {
            throw new PlateRoomException(Wrong);
        }

        work.Db.ActingAs = account.UserName!;
        if (await work.Users.IsLockedOutAsync(account))
        {
            throw new PlateRoomException("Too many wrong PINs. Wait 15 minutes, or ask a manager to unlock the account.");
        }

        if (work.Users.PasswordHasher.VerifyHashedPassword(account, account.PinHash, pin) == PasswordVerificationResult.Failed)
        {
            Check(await work.Users.AccessFailedAsync(account));
            await NoteFailedSignInAsync(account, "wrong PIN of the badge");
            throw new PlateRoomException(Wrong);
        }

        Check(await work.Users.ResetAccessFailedCountAsync(account));
        return account;
    }

    /// <summary>Why a PIN is refused; null for a good one.</summary>
    public static string? PinRefusal(string pin)
    {
        if (pin.Length is < ShortestPin or > LongestPin || !pin.All(char.IsAsciiDigit))
        {
            return $"A PIN has {ShortestPin} to {LongestPin} digits.";
        }

        var steps = pin.Zip(pin.Skip(1), (a, b) => b - a).Distinct().ToList();
        return steps is [0] or [1] or [-1] || pin.Distinct().Count() < 3 ? "This PIN is too simple: it is among the first that somebody would try." : null;
    }

    /// <summary>Notes a sign-in, and how it was made: "by password", "by badge on tablet Frame 1".</summary>
    public async Task NoteSignInAsync(Account account, string how)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        await using var work = new Work(scopes, site, account.UserName!);
        await work.Db.Users.Where(a => a.Id == account.Id).ExecuteUpdateAsync(s => s.SetProperty(a => a.LastSignInUtc, now));
        work.Db.Note(nameof(Account), account.UserName!, "signed in", how);
        await work.Db.SaveChangesAsync();
    }

    /// <summary>
    /// Notes that somebody tried to sign in as this person and failed. Tries under unknown names are not kept: anybody could fill the
    /// trail with them, and what was typed may be a password.
    /// </summary>
    public async Task NoteFailedSignInAsync(Account account, string how)
    {
        await using var work = new Work(scopes, site, "somebody not signed in");
        work.Db.Note(nameof(Account), account.UserName!, "was not let in", how);
        await work.Db.SaveChangesAsync();
    }

    private async Task ChangeAsync(int id, string by, Role? roles, bool? active, Func<Work, Account, Task> change, bool everySite, CancellationToken cancel)
    {
        await using var work = new Work(scopes, site, by);
        var account = await FindAsync(work, id);
        await work.Reach.RequireAsync(by, account, everySite, cancel);
        var keeps = (active ?? account.IsActive) && (roles ?? account.Roles).HasFlag(Role.Administrator);
        var kept = account.IsActive && account.Roles.HasFlag(Role.Administrator);
        if (kept && !keeps && !await work.Db.Users.AnyAsync(a => a.Id != id && a.IsActive && (a.Roles & Role.Administrator) != 0, cancel))
        {
            throw new PlateRoomException($"{account.UserName} is the last one who keeps accounts{(site.IsAlone ? "" : " at every site")}. Make somebody else administrator first.");
        }

        await change(work, account);
        Check(await work.Users.UpdateAsync(account));
        await EndSessionsAsync(work, account);
    }

    private async Task EndSessionsAsync(Work work, Account account)
    {
        Check(await work.Users.UpdateSecurityStampAsync(account));
        Changed?.Invoke(account.Id);
    }

    private async Task<Account> AddAsync(Work work, string name, Role roles, string? password, bool everySite, CancellationToken cancel)
    {
        name = string.Join(' ', name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        if (name.Length is 0 or > Account.LongestName || name.Any(char.IsControl))
        {
            throw new PlateRoomException($"Type a name of 1 to {Account.LongestName} characters.");
        }

        if (roles == Role.None)
        {
            throw new PlateRoomException("Choose one role or more.");
        }

        cancel.ThrowIfCancellationRequested();
        var account = new Account { UserName = name, Roles = site.IsAlone || everySite ? roles : Role.None, MadeUtc = clock.GetUtcNow().UtcDateTime };
        Check(password is null ? await work.Users.CreateAsync(account) : await work.Users.CreateAsync(account, PasswordRules.Normal(password)));
        if (account.Roles != roles)
        {
            await work.Reach.GiveAsync(account, roles, everySite, cancel);
            await work.Db.SaveChangesAsync(cancel);
        }

        return account;
    }

    private static async Task<Invitation> InviteAsync(Work work, Account account) =>
        new(account.Id, account.UserName!, await work.Users.GeneratePasswordResetTokenAsync(account));

    private static async Task<Account> ReachAsync(Work work, int id, string by)
    {
        var account = await FindAsync(work, id);
        await work.Reach.RequireAsync(by, account, everySite: false);
        return account;
    }

    private static async Task<Account> FindAsync(Work work, int id) =>
        await work.Users.FindByIdAsync(id.ToString(System.Globalization.CultureInfo.InvariantCulture)) ?? throw new PlateRoomException("There is no such account any more.");

    private static void Check(IdentityResult result)
    {
        if (!result.Succeeded)
        {
            throw new PlateRoomException(string.Join(" ", result.Errors.Select(Sentence)));
        }
    }

    private static string Sentence(IdentityError error) => error.Code switch
    {
        nameof(IdentityErrorDescriber.DuplicateUserName) => "There is an account of this name already. Choose another name.",
        nameof(IdentityErrorDescriber.ConcurrencyFailure) => "Somebody else changed this account a moment ago. Look at it again.",
        _ => error.Description,
    };

    private static string BadgeNumber()
    {
        while (true)
        {
            if (TrackingNumber.FromSequence(NumberKind.Badge, RandomNumberGenerator.GetInt32(int.MaxValue) * 10L % TrackingNumber.Capacity + RandomNumberGenerator.GetInt32(10)) is { } number)
            {
                return number;
            }
        }
    }

    private static string NewPin()
    {
        while (true)
        {
            var pin = RandomNumberGenerator.GetString("0123456789", ShortestPin);
            if (PinRefusal(pin) is null)
            {
                return pin;
            }
        }
    }

    private sealed class Work : IAsyncDisposable
    {
        private readonly AsyncServiceScope _scope;

        public Work(IServiceScopeFactory scopes, SiteKey site, string by)
        {
            _scope = scopes.CreateAsyncScope();
            Db = _scope.ServiceProvider.GetRequiredService<PlateRoomDb>();
            Users = _scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
            Reach = new AccountReach(Db, site);
            if (by.Length > 0)
            {
                Db.ActingAs = by;
            }
        }

        public PlateRoomDb Db { get; }

        public UserManager<Account> Users { get; }

        public AccountReach Reach { get; }

        public ValueTask DisposeAsync() => _scope.DisposeAsync();
    }
}
