using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace PlateTickets.Web.Exchange.Webhooks;

/// <summary>Signs messages by Standard Webhooks 1.0.0: HMAC-SHA256 of "id.timestamp.body".</summary>
internal static class StandardSignature
{
    private const string Prefix = "whsec_";
    private const int SecretBytes = 32;

    /// <summary>"whsec_" and 32 random bytes in Base64.</summary>
    public static string NewSecret() => Prefix + Convert.ToBase64String(RandomNumberGenerator.GetBytes(SecretBytes));

    /// <summary>The three headers of a message.</summary>
    /// <param name="secret">whsec_…</param>
    /// <param name="id">The same for every try.</param>
    /// <param name="at">When this try is made.</param>
    /// <param name="body">The bytes that are sent.</param>
    public static Dictionary<string, string> Headers(string secret, string id, DateTimeOffset at, ReadOnlySpan<byte> body)
    {
        var timestamp = at.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture);
        var beginning = Encoding.UTF8.GetBytes($"{id}.{timestamp}.");
        using var hash = IncrementalHash.CreateHMAC(HashAlgorithmName.SHA256, Convert.FromBase64String(secret[Prefix.Length..]));
        hash.AppendData(beginning);
        hash.AppendData(body);
        return new Dictionary<string, string>
        {
            ["webhook-id"] = id,
            ["webhook-timestamp"] = timestamp,
            ["webhook-signature"] = "v1," + Convert.ToBase64String(hash.GetHashAndReset()),
        };
    }
}
