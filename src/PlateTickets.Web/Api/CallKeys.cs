using System.Security.Claims;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

/// <summary>"Idempotency-Key": a creating call may be sent again when its answer got lost.</summary>
internal static class CallKeys
{
    public const string Header = "Idempotency-Key";

    /// <summary>Says in the answer that nothing was created this time.</summary>
    public const string Replayed = "Idempotency-Replayed";

    private const int Longest = 200;

    /// <summary>The key of this call, bound to its caller and to what it asks; null without one.</summary>
    /// <exception cref="BadHttpRequestException">A key that is empty, too long or not printable.</exception>
    public static CallKey? Of(HttpRequest request, ClaimsPrincipal who, params object?[] asked)
    {
        if (!request.Headers.TryGetValue(Header, out var values))
        {
            return null;
        }

        // The draft of the header writes the key as a string in quotes; many send it bare.
        var key = values.ToString().Trim().Trim('"');
        return key.Length is >= 1 and <= Longest && key.All(c => c is > ' ' and <= '~')
            ? new CallKey(RoomClaims.NameOf(who), key, Convert.ToHexStringLower(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(asked.Prepend(request.Path.Value).ToArray()))))
            : throw new BadHttpRequestException($"An {Header} has 1 to {Longest} printable characters without spaces.");
    }

    /// <summary>Does the work once: a second call with the same key gets the first one's number.</summary>
    public static async Task<string> OnceAsync(this IdempotentCalls calls, CallKey? call, HttpResponse response, Func<Task<string>> work, CancellationToken cancel)
    {
        if (call is null)
        {
            return await work();
        }

        if (await calls.FindAsync(call, cancel) is { } known)
        {
            response.Headers[Replayed] = "true";
            return known;
        }

        try
        {
            return await work();
        }
        catch (Exception e) when (e is CallRepeatedException or DbUpdateException)
        {
            // The same call ran at the same time and was first.
            if (await calls.FindAsync(call, cancel) is { } first)
            {
                response.Headers[Replayed] = "true";
                return first;
            }

            throw;
        }
    }
}
