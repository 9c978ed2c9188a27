using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace PlateTickets.Tickets.Accounts;

/// <summary>Random secrets that a machine keeps, and their hashes.</summary>
internal static class SecretText
{
    /// <summary>256 random bits in letters, digits, - and _.</summary>
    public static string New() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));

    public static string Hash(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));
}
