using Microsoft.EntityFrameworkCore;

namespace PlateTickets.Tickets.Accounts;

/// <summary>Keeps and recognises creating calls by their key, for a week.</summary>
public sealed class IdempotentCalls(IDbContextFactory<PlateRoomDb> databases)
{
    private static readonly TimeSpan Kept = TimeSpan.FromDays(7);

    /// <summary>What this call created when it came first; null when it is new.</summary>
    /// <exception cref="KeyReusedException">The key came with another question.</exception>
    public async Task<string?> FindAsync(CallKey call, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var known = await db.IdempotentCalls.AsNoTracking().SingleOrDefaultAsync(c => c.Caller == call.Caller && c.Key == call.Key, cancel);
        return known is null || known.Request == call.Request
            ? known?.Number
            : throw new KeyReusedException("This Idempotency-Key came with another request before. Take a new key for each request.");
    }

    /// <summary>Keeps the call in the transaction of what it creates; its unique index stops a second one that runs at the same time.</summary>
    internal static async Task KeepAsync(PlateRoomDb db, CallKey? call, string number, DateTime nowUtc, CancellationToken cancel)
    {
        if (call is null)
        {
            return;
        }

        var old = nowUtc - Kept;
        await db.IdempotentCalls.Where(c => c.AtUtc < old).ExecuteDeleteAsync(cancel);
        if (await db.IdempotentCalls.AnyAsync(c => c.Caller == call.Caller && c.Key == call.Key, cancel))
        {
            throw new CallRepeatedException();
        }

        db.IdempotentCalls.Add(new IdempotentCall { Caller = call.Caller, Key = call.Key, Request = call.Request, Number = number, AtUtc = nowUtc });
        await db.SaveChangesAsync(cancel);
    }
}

/// <summary>The same call ran at the same time and was first; nothing of this one was saved.</summary>
public sealed class CallRepeatedException() : Exception("This call came twice at the same time.");

/// <summary>A caller used the same key for two different requests.</summary>
public sealed class KeyReusedException(string sentence) : Exception(sentence);
