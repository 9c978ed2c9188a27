using System.Collections.Concurrent;
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

    // The sites of a database have a writer each.
    private static readonly string TakeTurn = $"SELECT pg_advisory_xact_lock({SiteLocks.Of(WriterLock)})";

    // Who finds SQLite's file locked sleeps and looks again. Here the writers of this process wait in the order in which they came.
    private static readonly ConcurrentDictionary<string, SemaphoreSlim> Writers = new();

    /// <summary>Begins a transaction that writes; rolled back when it is disposed of without a commit. One at a time in each flow.</summary>
    public static async Task<WriteTransaction> BeginWriteAsync(this PlateRoomDb db, CancellationToken cancel = default)
    {
        if (db.IsPostgreSql())
        {
            var transaction = new WriteTransaction(await db.Database.BeginTransactionAsync(IsolationLevel.ReadCommitted, cancel), turn: null);
            try
            {
                await db.Database.ExecuteSqlRawAsync(TakeTurn, cancel);
                return transaction;
            }
            catch
            {
                await transaction.DisposeAsync();
                throw;
            }
        }

        var turn = Writers.GetOrAdd(db.Database.GetConnectionString() ?? "", _ => new SemaphoreSlim(1, 1));
        await turn.WaitAsync(cancel);
        try
        {
            // Serializable takes SQLite's write lock at once.
            return new WriteTransaction(await db.Database.BeginTransactionAsync(IsolationLevel.Serializable, cancel), turn);
        }
        catch
        {
            turn.Release();
            throw;
        }
    }

    public static bool IsPostgreSql(this PlateRoomDb db) => db.Database.ProviderName == "Npgsql.EntityFrameworkCore.PostgreSQL";
}

/// <summary>A transaction that writes.</summary>
public sealed class WriteTransaction : IAsyncDisposable
{
    private readonly IDbContextTransaction _transaction;
    private SemaphoreSlim? _turn;

    internal WriteTransaction(IDbContextTransaction transaction, SemaphoreSlim? turn) => (_transaction, _turn) = (transaction, turn);

    public Task CommitAsync(CancellationToken cancel = default) => _transaction.CommitAsync(cancel);

    public Task RollbackAsync(CancellationToken cancel = default) => _transaction.RollbackAsync(cancel);

    public async ValueTask DisposeAsync()
    {
        try
        {
            await _transaction.DisposeAsync();
        }
        finally
        {
            Interlocked.Exchange(ref _turn, null)?.Release();
        }
    }
}
