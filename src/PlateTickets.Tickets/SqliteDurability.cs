using System.Data.Common;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace PlateTickets.Tickets;

/// <summary>
/// Sets every SQLite connection so that what was acknowledged is on disk: write-ahead log with synchronous=FULL
/// (an fsync at each commit). NORMAL would be faster and could lose the last scans at a power cut.
/// </summary>
public sealed class SqliteDurability : DbConnectionInterceptor
{
    private const string Pragmas = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; PRAGMA busy_timeout=10000;";

    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        command.ExecuteNonQuery();
    }

    public override async Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = Pragmas;
        await command.ExecuteNonQueryAsync(cancellationToken);
    }
}
