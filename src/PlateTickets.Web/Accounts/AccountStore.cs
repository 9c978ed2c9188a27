using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Accounts;

/// <summary>Keeps accounts; authenticator keys and recovery codes lie encrypted in the database, so that whoever has a copy of it alone cannot make codes.</summary>
internal sealed class AccountStore(PlateRoomDb db, IDataProtectionProvider protection, ILogger<AccountStore> log) : UserOnlyStore<Account, PlateRoomDb, int>(db)
{
    // Values without it were kept before they were encrypted.
    private const string Mark = "protected:";
    private const string Base32 = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";

    private static readonly Action<ILogger, string, string?, Exception?> Unreadable = LoggerMessage.Define<string, string?>(
        LogLevel.Warning, new EventId(1, nameof(Unreadable)),
        "The {What} of {Account} cannot be read with the keys of this machine. Were the keys restored with the database? Otherwise switch this person's second factor off and on again.");

    private readonly IDataProtector _protector = protection.CreateProtector("PlateTickets.AccountTokens");

    public override Task SetTokenAsync(Account user, string loginProvider, string name, string? value, CancellationToken cancellationToken) =>
        base.SetTokenAsync(user, loginProvider, name, value is null ? null : Mark + _protector.Protect(value), cancellationToken);

    /// <summary>
    /// What another machine's keys protect is answered with a value that fits nothing: an account whose second factor cannot be read must not become one without.
    /// </summary>
    public override async Task<string?> GetTokenAsync(Account user, string loginProvider, string name, CancellationToken cancellationToken)
    {
        var kept = await base.GetTokenAsync(user, loginProvider, name, cancellationToken);
        if (kept is null || !kept.StartsWith(Mark, StringComparison.Ordinal))
        {
            return kept;
        }

        try
        {
            return _protector.Unprotect(kept[Mark.Length..]);
        }
        catch (CryptographicException)
        {
            Unreadable(log, name, user.UserName, null);
            return RandomNumberGenerator.GetString(Base32, 32);
        }
    }
}
