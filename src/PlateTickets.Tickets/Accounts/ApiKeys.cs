using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;

namespace PlateTickets.Tickets.Accounts;

/// <summary>Makes, lists, revokes and recognises API keys.</summary>
public sealed class ApiKeys(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
{
    /// <summary>What every key starts with: a key that leaked into a text can be searched for.</summary>
    public const string Prefix = "plk_";

    /// <summary>Longest life of a key.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromDays(730);

    private const int StartLength = 10;
    private static readonly TimeSpan UseKeptEvery = TimeSpan.FromMinutes(1);

    private readonly ConcurrentDictionary<int, DateTime> _used = new();

    /// <summary>Makes a key and returns it: the only time that it can be read.</summary>
    /// <exception cref="PlateRoomException">A name that is empty, too long or taken by a good key; no role; a life of no or too many days.</exception>
    public async Task<string> CreateAsync(string name, Role roles, TimeSpan life, string by, CancellationToken cancel = default)
    {
        name = name.Trim();
        if (name.Length is 0 or > Account.LongestName || name.Any(char.IsControl))
        {
            throw new PlateRoomException($"Give the key a name of 1 to {Account.LongestName} characters: the program that will use it.");
        }

        if (roles == Role.None)
        {
            throw new PlateRoomException("Choose what the key may do: one role or more.");
        }

        if (life <= TimeSpan.Zero || life > Longest)
        {
            throw new PlateRoomException($"A key lives 1 to {Longest.TotalDays:0} days.");
        }

        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        if (await db.ApiKeys.AnyAsync(k => k.Name == name && k.RevokedUtc == null && k.ExpiresUtc > now, cancel))
        {
            throw new PlateRoomException($"There is a key “{name}” already. Revoke it first, or choose another name.");
        }

        var key = Prefix + SecretText.New();
        db.ApiKeys.Add(new ApiKey
        {
            Name = name,
            Roles = roles,
            Start = key[..StartLength],
            Hash = SecretText.Hash(key),
            MadeUtc = now,
            MadeBy = by,
            ExpiresUtc = now + life,
        });
        await db.SaveChangesAsync(cancel);
        return key;
    }

    /// <summary>Good keys first, then the newest 200 of the others.</summary>
    public async Task<IReadOnlyList<ApiKey>> ListAsync(CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ApiKeys.AsNoTracking()
            .OrderByDescending(k => k.RevokedUtc == null && k.ExpiresUtc > now).ThenByDescending(k => k.Id).Take(200).ToListAsync(cancel);
    }

    /// <exception cref="PlateRoomException">There is no such key.</exception>
    public async Task RevokeAsync(int id, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var key = await db.ApiKeys.FindAsync([id], cancel) ?? throw new PlateRoomException("There is no such key any more.");
        key.RevokedUtc ??= clock.GetUtcNow().UtcDateTime;
        await db.SaveChangesAsync(cancel);
    }

    /// <summary>The good key behind a text, or null. Notes the use, at most once a minute.</summary>
    public async Task<ApiKey?> RecogniseAsync(string text, CancellationToken cancel = default)
    {
        if (!text.StartsWith(Prefix, StringComparison.Ordinal))
        {
            return null;
        }

        var now = clock.GetUtcNow().UtcDateTime;
        var hash = SecretText.Hash(text);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var key = await db.ApiKeys.AsNoTracking().SingleOrDefaultAsync(k => k.Hash == hash, cancel);
        if (key?.IsGood(now) != true)
        {
            return null;
        }

        if (now - _used.GetOrAdd(key.Id, key.LastUsedUtc ?? DateTime.MinValue) >= UseKeptEvery)
        {
            _used[key.Id] = now;
            await db.ApiKeys.Where(k => k.Id == key.Id).ExecuteUpdateAsync(s => s.SetProperty(k => k.LastUsedUtc, now), cancel);
        }

        return key;
    }
}
