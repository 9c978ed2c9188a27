using System.Data;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace PlateTickets.Tickets.Database;

/// <summary>
/// A room has one writer at a time: what a transaction reads stays true until it is over. SQLite locks its file; on PostgreSQL writers wait for an advisory
/// lock, and readers for nobody.
/// </summary>
public static class WriteTransactions
{
    // Any number that is the same on all nodes.
    private const long WriterLock = 0x706C6174_65730001;

    public static async Task<IDbContextTransaction> BeginWriteAsync(this PlateRoomDb db, CancellationToken cancel = default)
    {
        if (!db.IsPostgreSql())
        {
            return await db.Database.BeginTransactionAsync(IsolationLevel.Serializable, cancel);
        }

        var transaction = await db.Database.BeginTransactionAsync(IsolationLevel.ReadCommitted, cancel);
        try
        {
            await db.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({WriterLock})", cancel);
            return transaction;
        }
        catch
        {
            await transaction.DisposeAsync();
            throw;
        }
    }

    public static bool IsPostgreSql(this PlateRoomDb db) => db.Database.ProviderName == "Npgsql.EntityFrameworkCore.PostgreSQL";
}
