using System.Net;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Stations;
using SignInResult = Microsoft.AspNetCore.Identity.SignInResult;

namespace PlateTickets.Web.Accounts;

/// <summary>Signs people in and out of the request at work.</summary>
internal sealed class SignInDesk(
    SignInManager<Account> signIn, UserManager<Account> users, PlateRoomDb db, AccountDesk accounts, Tablets tablets, RoomCatalog rooms, IHttpContextAccessor contexts,
    IOptions<SignInOptions> options)
{
    public const string TabletCookie = "plate-room-tablet";

    private const string Wrong = "Name and password do not go together. Try again. After several wrong tries in a row the account is locked for a while.";

    private HttpContext Context => contexts.HttpContext!;

    /// <summary>Signs in by password. True when a second factor is asked for first.</summary>
    /// <exception cref="PlateRoomException">Wrong name or password, locked, or switched off.</exception>
    public async Task<bool> ByPasswordAsync(string name, string password)
    {
        db.ActingAs = name.Trim();
        var account = await users.FindByNameAsync(name.Trim());
        if (account is null)
        {
            // As slow as with a name that is known: the answer's time must not tell which names there are.
            new PasswordHasher<Account>().HashPassword(new Account(), password);
            throw new PlateRoomException(Wrong);
        }

        var locked = await users.IsLockedOutAsync(account);
        return await OutcomeAsync(account, locked, await signIn.PasswordSignInAsync(account, PasswordRules.Normal(password), isPersistent: false, lockoutOnFailure: true), "by password", Wrong);
    }

    /// <summary>The second step: a code from the authenticator app, or a recovery code.</summary>
    /// <exception cref="PlateRoomException">The code is wrong, or the first step is too long ago.</exception>
    public async Task ByCodeAsync(string code)
    {
        var account = await signIn.GetTwoFactorAuthenticationUserAsync() ?? throw new PlateRoomException("The first step is too long ago. Sign in again.");
        db.ActingAs = account.UserName!;
        var locked = await users.IsLockedOutAsync(account);
        var clean = new string([.. code.Where(char.IsAsciiLetterOrDigit)]);
        var fromApp = clean.Length == 6 && clean.All(char.IsAsciiDigit);
        var result = fromApp
            ? await signIn.TwoFactorAuthenticatorSignInAsync(clean, isPersistent: false, rememberClient: false)
            : await signIn.TwoFactorRecoveryCodeSignInAsync(code.Trim().ToUpperInvariant());
        await OutcomeAsync(account, locked, result, fromApp ? "by password and code" : "by password and recovery code", "This code is not right, or no longer. Type the six digits that the app shows now, or one of your recovery codes.");
    }

    /// <summary>Signs in by badge on a registered tablet, for station work only.</summary>
    /// <exception cref="PlateRoomException">No registered tablet, or badge and PIN do not go together.</exception>
    public async Task ByBadgeAsync(string badge, string pin)
    {
        var tablet = await TabletAsync() ?? throw new PlateRoomException("Badges work on registered tablets only. A manager registers one under Settings, Tablets.");
        var account = await accounts.ByBadgeAsync(badge, pin);
        await signIn.SignOutAsync();
        await signIn.SignInWithClaimsAsync(account, isPersistent: false, [new Claim(RoomClaims.Tablet, tablet.Name)]);
        await accounts.NoteSignInAsync(account, $"by badge on tablet {tablet.Name}");
    }

    /// <summary>Signs in whom the house's own provider has just sent back.</summary>
    /// <exception cref="PlateRoomException">Nobody was sent, or the person may not come in here.</exception>
    public async Task ByProviderAsync()
    {
        var sent = await Context.AuthenticateAsync(IdentityConstants.ExternalScheme);
        await Context.SignOutAsync(IdentityConstants.ExternalScheme);
        var settings = options.Value.OpenIdConnect;
        if (!sent.Succeeded || sent.Principal.FindFirstValue("sub") is not { Length: > 0 } subject)
        {
            throw new PlateRoomException("Your company's sign-in is too long ago. Sign in again.");
        }

        var name = sent.Principal.FindFirstValue(settings.NameClaim) is { Length: > 0 } told
            ? told
            : throw new PlateRoomException($"Your company's sign-in does not tell your name (claim “{settings.NameClaim}”). Tell an administrator.");
        await InAsync(await accounts.FromProviderAsync(settings.Authority, subject, name, settings.RolesOf(sent.Principal.FindAll(settings.RoleClaim).Select(c => c.Value))), "with the company account");
    }

    /// <summary>Signs the demo's invented person of a role in, on this machine only.</summary>
    /// <exception cref="PlateRoomException">No demo room, or somebody from the network.</exception>
    public async Task AsDemoAsync(Role role)
    {
        if (!IsThisMachine())
        {
            throw new PlateRoomException("The demo lets people in without a password on its own machine only.");
        }

        await InAsync(await accounts.DemoAsync(role), "as a demo person");
    }

    /// <summary>Signs in who has proved by other means who they are, and notes how.</summary>
    public async Task InAsync(Account account, string how)
    {
        await signIn.SignInAsync(account, isPersistent: false);
        await accounts.NoteSignInAsync(account, how);
    }

    /// <summary>A new cookie after the account changed, so that this session goes on while all others end.</summary>
    public Task AgainAsync(Account account) => signIn.RefreshSignInAsync(account);

    public Task OutAsync() => signIn.SignOutAsync();

    public async Task<Account> MeAsync()
    {
        var me = await users.GetUserAsync(Context.User) ?? throw new PlateRoomException("Your session is over. Sign in again.");
        db.ActingAs = me.UserName!;
        return me;
    }

    /// <summary>The registered tablet that asks, or null.</summary>
    public Task<Tablet?> TabletAsync() => tablets.RecogniseAsync(Context.Request.Cookies[TabletCookie]);

    /// <summary>May the demo's buttons be shown here?</summary>
    public async Task<bool> IsOpenDemoAsync() => IsThisMachine() && (await rooms.GetAsync()).Site.IsDemo;

    // A proxy on this machine would make everybody look as if they sat here: its headers tell.
    private bool IsThisMachine() =>
        Context.Connection.RemoteIpAddress is { } remote && IPAddress.IsLoopback(remote)
        && !Context.Request.Headers.Keys.Any(h => h.StartsWith("X-Forwarded-", StringComparison.OrdinalIgnoreCase) || h.Equals("Forwarded", StringComparison.OrdinalIgnoreCase))
        && (Context.Request.Host.Host.Equals("localhost", StringComparison.OrdinalIgnoreCase)
            || (IPAddress.TryParse(Context.Request.Host.Host.Trim('[', ']'), out var host) && IPAddress.IsLoopback(host)));

    private async Task<bool> OutcomeAsync(Account account, bool wasLocked, SignInResult result, string how, string wrong)
    {
        if (result.Succeeded)
        {
            await accounts.NoteSignInAsync(account, how);
            return false;
        }

        if (result.RequiresTwoFactor)
        {
            return true;
        }

        // Who goes on trying at a locked account adds nothing to the trail.
        if (!wasLocked)
        {
            await accounts.NoteFailedSignInAsync(account, result.IsLockedOut ? $"{how}: locked" : result.IsNotAllowed ? $"{how}: the account is switched off" : how);
        }

        throw new PlateRoomException(
            result.IsLockedOut ? "Too many wrong tries: this account is locked for a while. Wait, or ask an administrator to unlock it."
            : wrong);
    }
}
