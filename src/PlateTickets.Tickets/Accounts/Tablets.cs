using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;

namespace PlateTickets.Tickets.Accounts;

/// <summary>Which tablets of the room take badges.</summary>
public sealed class Tablets(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
{
    /// <summary>Registers a tablet and returns the secret for its cookie.</summary>
    /// <exception cref="PlateRoomException">No name, or one that is taken.</exception>
    public async Task<string> RegisterAsync(string name, string by, CancellationToken cancel = default)
    {
        name = name.Trim();
        if (name.Length is 0 or > Account.LongestName || name.Any(char.IsControl))
        {
            throw new PlateRoomException($"Give the tablet a name of 1 to {Account.LongestName} characters, such as the place where it hangs.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        if (await db.Tablets.AnyAsync(t => t.Name == name && t.RemovedUtc == null, cancel))
        {
            throw new PlateRoomException($"There is a tablet “{name}” already. Remove it first, or choose another name.");
        }

        var secret = SecretText.New();
        db.Tablets.Add(new Tablet { Name = name, Hash = SecretText.Hash(secret), RegisteredUtc = clock.GetUtcNow().UtcDateTime, RegisteredBy = by });
        await db.SaveChangesAsync(cancel);
        return secret;
    }

    /// <summary>At most 200, the newest first.</summary>
    public async Task<IReadOnlyList<Tablet>> ListAsync(CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Tablets.AsNoTracking().Where(t => t.RemovedUtc == null).OrderByDescending(t => t.Id).Take(200).ToListAsync(cancel);
    }

    /// <exception cref="PlateRoomException">There is no such tablet.</exception>
    public async Task RemoveAsync(int id, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var tablet = await db.Tablets.FindAsync([id], cancel) ?? throw new PlateRoomException("There is no such tablet any more.");
        tablet.RemovedUtc ??= clock.GetUtcNow().UtcDateTime;
        await db.SaveChangesAsync(cancel);
    }

    /// <summary>The registered tablet that holds this secret, or null.</summary>
    public async Task<Tablet?> RecogniseAsync(string? secret, CancellationToken cancel = default)
    {
        if (string.IsNullOrEmpty(secret))
        {
            return null;
        }

        var hash = SecretText.Hash(secret);
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Tablets.AsNoTracking().SingleOrDefaultAsync(t => t.Hash == hash && t.RemovedUtc == null, cancel);
    }
}
