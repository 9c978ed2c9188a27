using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Calendars;

/// <summary>Makes, lists and ends the addresses that calendar programs read.</summary>
public sealed class CalendarFeeds(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
{
    /// <summary>Addresses that one person may have at a time.</summary>
    public const int Most = 10;

    private static readonly TimeSpan UseKeptEvery = TimeSpan.FromHours(1);

    /// <summary>Makes an address and returns its secret: the only time that it can be read.</summary>
    /// <exception cref="PlateRoomException">It would show nothing, or there are too many.</exception>
    public async Task<string> CreateAsync(int accountId, CalendarContent shows, string by, CancellationToken cancel = default)
    {
        if (shows == CalendarContent.None)
        {
            throw new PlateRoomException("Choose what the calendar shows.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        if (await db.CalendarFeeds.CountAsync(f => f.AccountId == accountId && f.RemovedUtc == null, cancel) >= Most)
        {
            throw new PlateRoomException($"You have {Most} calendar addresses: end one that is not used any more.");
        }

        var secret = SecretText.New();
        db.CalendarFeeds.Add(new CalendarFeed { AccountId = accountId, Shows = shows, Hash = SecretText.Hash(secret), MadeUtc = clock.GetUtcNow().UtcDateTime });
        await db.SaveChangesAsync(cancel);
        return secret;
    }

    /// <summary>The addresses of a person that work, the newest first; at most <see cref="Most"/>.</summary>
    public async Task<IReadOnlyList<CalendarFeed>> ListAsync(int accountId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.CalendarFeeds.AsNoTracking().Where(f => f.AccountId == accountId && f.RemovedUtc == null).OrderByDescending(f => f.Id).Take(Most).ToListAsync(cancel);
    }

    /// <exception cref="PlateRoomException">This person has no such address.</exception>
    public async Task RemoveAsync(int accountId, int id, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var feed = await db.CalendarFeeds.SingleOrDefaultAsync(f => f.Id == id && f.AccountId == accountId, cancel) ?? throw new PlateRoomException("There is no such calendar address any more.");
        feed.RemovedUtc ??= clock.GetUtcNow().UtcDateTime;
        await db.SaveChangesAsync(cancel);
    }

    /// <summary>What the address behind a secret shows; none for one that never was, has ended, or whose owner may not look any more.</summary>
    public async Task<CalendarContent> RecogniseAsync(string secret, CancellationToken cancel = default)
    {
        var hash = SecretText.Hash(secret);
        await using var db = await databases.CreateDbContextAsync(cancel);
        var feed = await db.CalendarFeeds.AsNoTracking().Include(f => f.Account).SingleOrDefaultAsync(f => f.Hash == hash && f.RemovedUtc == null, cancel);
        if (feed?.Account is not { IsActive: true } owner || !Rights.Of(owner.Roles).HasFlag(Right.Look))
        {
            return CalendarContent.None;
        }

        var now = clock.GetUtcNow().UtcDateTime;
        if (feed.LastReadUtc is not { } last || now - last >= UseKeptEvery)
        {
            await db.CalendarFeeds.Where(f => f.Id == feed.Id).ExecuteUpdateAsync(s => s.SetProperty(f => f.LastReadUtc, now), cancel);
        }

        return feed.Shows;
    }
}
