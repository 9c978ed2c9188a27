using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using PlateTickets.Tickets.Exchange.Sending;

namespace PlateTickets.Web.Exchange;

/// <summary>Encrypts secrets of the exchange with the program's keys, so that whoever has a copy of the database alone cannot sign as this program.</summary>
internal sealed class SecretKeeper(IDataProtectionProvider protection, ILogger<SecretKeeper> log) : ISecretKeeper
{
    private static readonly Action<ILogger, Exception?> Unreadable = LoggerMessage.Define(
        LogLevel.Warning, new EventId(1, nameof(Unreadable)),
        "A secret of the exchange cannot be read with the keys of this machine. Were the keys restored with the database? Otherwise make a new secret.");

    private readonly IDataProtector _protector = protection.CreateProtector("PlateTickets.Exchange");

    public string Protect(string secret) => _protector.Protect(secret);

    public string? Read(string kept)
    {
        try
        {
            return _protector.Unprotect(kept);
        }
        catch (CryptographicException)
        {
            Unreadable(log, null);
            return null;
        }
    }
}
