using Microsoft.EntityFrameworkCore;

namespace PlateTickets.Tickets.Accounts;

/// <summary>
/// Writes what happened and is no change of a record: somebody signed in or failed to, a backup was made. What happens together with a
/// change belongs to that change: <see cref="PlateRoomDb.Note"/> writes it in the same transaction.
/// </summary>
public sealed class AuditLog(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
{
    /// <summary>Adds an entry in a transaction of its own.</summary>
    /// <param name="by">Who did it, or who is said to have done it.</param>
    /// <param name="record">The kind of thing, such as "Account".</param>
    /// <param name="key">Which one, such as the account's name.</param>
    /// <param name="happened">What happened, as it goes on after the name: "signed in", "failed to sign in".</param>
    /// <param name="detail">More about it; never a secret.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task WriteAsync(string by, string record, string key, string happened, string? detail = null, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        (db.ActingAs, db.Clock) = (by, clock);
        db.Note(record, key, happened, detail);
        await db.SaveChangesAsync(cancel);
    }
}
