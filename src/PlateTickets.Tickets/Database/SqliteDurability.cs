using System.Data.Common;
using System.Runtime.CompilerServices;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace PlateTickets.Tickets.Database;

/// <summary>
/// Sets every SQLite connection so that what was acknowledged is on disk: write-ahead log with synchronous=FULL
/// (an fsync at each commit). NORMAL would be faster and could lose the last scans at a power cut.
/// </summary>
public sealed class SqliteDurability : DbConnectionInterceptor
{
    private const string Pragmas = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; PRAGMA busy_timeout=10000;";

    // Connections are pooled, and keep what they were set to.
    private readonly ConditionalWeakTable<object, object> _set = [];

    // A connection that only reads could not change the mode, and does not need to.
    private bool NeedsNone(DbConnection connection) =>
        (HandleOf(connection) is { } handle && _set.TryGetValue(handle, out _))
        || new SqliteConnectionStringBuilder(connection.ConnectionString).Mode == SqliteOpenMode.ReadOnly;

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        if (NeedsNone(connection))
        {
            return;
        }

        using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        command.ExecuteNonQuery();
        Keep(connection);
    }

    public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        if (NeedsNone(connection))
        {
            return;
        }

        await using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        await command.ExecuteNonQueryAsync(cancellationToken);
        Keep(connection);
    }

    // Only after it was set: one whose setting failed is set when it is opened next.
    private void Keep(DbConnection connection)
    {
        if (HandleOf(connection) is { } handle)
        {
            _set.AddOrUpdate(handle, handle);
        }
    }

    private static object? HandleOf(DbConnection connection) => ((SqliteConnection)connection).Handle;
}
