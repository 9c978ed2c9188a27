using System.Data.Common;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Storage;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Tickets.Accounts.Audit;

/// <summary>
/// Adds entries to the end of the chain, inside the transaction of what they tell. The head's row is locked first: SQLite has one writer
/// anyway, PostgreSQL lets the others wait there until this transaction is over, so the chain never forks.
/// </summary>
public static class AuditChain
{
    private const int LongestName = 400;

    // A way to the database for each entry is what costs, where it is on another machine.
    private const int RowsAtOnce = 25;

    private const int EarlierAtOnce = 5000;

    internal static async Task AppendAsync(DatabaseFacade database, IReadOnlyList<AuditEntry> entries, CancellationToken cancel)
    {
        var connection = database.GetDbConnection();
        var transaction = database.CurrentTransaction!.GetDbTransaction();
        try
        {
            var head = await AuditSql.HeadAsync(connection, transaction, cancel, locked: true)
                ?? throw new InvalidOperationException("The head of the audit trail is missing: nothing can be added to it. Run “audit verify”.");
            var hasher = new AuditHasher();
            foreach (var rows in entries.Chunk(RowsAtOnce))
            {
                foreach (var entry in rows)
                {
                    Tidy(entry);
                    entry.Id = ++head.LastId;
                    entry.Hash = head.Hash = hasher.Next(head.Hash, entry);
                    head.Count++;
                }

                await using var insert = AuditSql.Insert(connection, transaction, rows);
                await insert.ExecuteNonQueryAsync(cancel);
            }

            await AuditSql.KeepHeadAsync(connection, transaction, head, cancel);
        }
        catch (DbException e)
        {
            throw new DbUpdateException("The audit trail could not be written, so nothing was saved.", e);
        }
    }

    /// <summary>Chains the entries of a room that was made before there was a chain. Returns how many; 0 when there is nothing to do.</summary>
    public static async Task<long> ChainEarlierAsync(PlateRoomDb db, CancellationToken cancel = default)
    {
        await using var transaction = await db.BeginWriteAsync(cancel);
        var (connection, plain) = (db.Database.GetDbConnection(), db.Database.CurrentTransaction!.GetDbTransaction());
        var head = await AuditSql.HeadAsync(connection, plain, cancel, locked: true);
        if (head is not { Count: 0 })
        {
            return 0;
        }

        var hasher = new AuditHasher();
        for (var last = -1L; last != head.LastId;)
        {
            last = head.LastId;
            foreach (var entry in await EarlierAsync(connection, plain, last, cancel))
            {
                (head.LastId, head.Hash) = (entry.Id, hasher.Next(head.Hash, entry));
                head.Count++;
                await using var update = AuditSql.Command(
                    connection, plain, "UPDATE \"AuditEntries\" SET \"Hash\" = @hash WHERE \"Id\" = @id", ("@hash", head.Hash), ("@id", entry.Id));
                await update.ExecuteNonQueryAsync(cancel);
            }
        }

        if (head.Count > 0)
        {
            await AuditSql.KeepHeadAsync(connection, plain, head, cancel);
            db.Note("AuditTrail", "audit trail", "chained the entries of an earlier version", $"{head.Count} entries up to number {head.LastId}");
            await db.SaveChangesAsync(cancel);
        }

        await transaction.CommitAsync(cancel);
        return head.Count;
    }

    private static async Task<List<AuditEntry>> EarlierAsync(DbConnection connection, DbTransaction transaction, long after, CancellationToken cancel)
    {
        await using var command = AuditSql.Command(
            connection, transaction,
            $"SELECT {AuditSql.Columns} FROM \"AuditEntries\" WHERE \"Id\" > @after ORDER BY \"Id\" LIMIT @most", ("@after", after), ("@most", EarlierAtOnce));
        await using var rows = await command.ExecuteReaderAsync(cancel);
        var entries = new List<AuditEntry>();
        while (await rows.ReadAsync(cancel))
        {
            entries.Add(AuditSql.Entry(rows));
        }

        return entries;
    }

    // What is hashed must be what comes back from any database: no part of a microsecond, no NUL, nothing longer than its column.
    private static void Tidy(AuditEntry entry)
    {
        entry.AtUtc = entry.AtUtc.AddTicks(-(entry.AtUtc.Ticks % TimeSpan.TicksPerMicrosecond));
        (entry.By, entry.Record) = (Cut(entry.By, LongestName)!, Cut(entry.Record, LongestName)!);
        (entry.Key, entry.Field) = (Cut(entry.Key, LongestName)!, Cut(entry.Field, LongestName)!);
        (entry.From, entry.To) = (Cut(entry.From, AuditEntry.LongestValue), Cut(entry.To, AuditEntry.LongestValue));
    }

    private static string? Cut(string? text, int longest)
    {
        text = text is null ? null : PostgreSqlText.Clean(text);
        if (text is null || text.Length <= longest)
        {
            return text;
        }

        // The rest cannot be read, but a copy of it can still be recognised.
        var mark = $" … ({text.Length} characters, SHA-256 {Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))})";
        var kept = longest - mark.Length;
        return text[..(char.IsHighSurrogate(text[kept - 1]) ? kept - 1 : kept)] + mark;
    }
}
