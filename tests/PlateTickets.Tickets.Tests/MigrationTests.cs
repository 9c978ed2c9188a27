using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Tickets.Tests;

public class MigrationTests
{
    [Fact]
    public async Task Model_HasNoPendingChanges()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        Assert.False(db.Database.HasPendingModelChanges(), "The model changed: add a migration (see DEVELOPERS.md).");
    }

    [Fact]
    public async Task Connection_IsDurable()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        await db.Database.OpenConnectionAsync();
        if (db.IsPostgreSql())
        {
            // Every commit is flushed to disk before it is acknowledged (PostgreSQL documentation, 20.5.1).
            Assert.Equal("on", await AskAsync(db, "SHOW synchronous_commit"));
            return;
        }

        Assert.Equal("wal", await AskAsync(db, "PRAGMA journal_mode"));
        // 2 is FULL: every commit is on disk before it is acknowledged (SQLite documentation, PRAGMA synchronous).
        Assert.Equal("2", await AskAsync(db, "PRAGMA synchronous"));
    }

    private static async Task<string?> AskAsync(PlateRoomDb db, string sql)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = sql;
        return Convert.ToString(await command.ExecuteScalarAsync(), System.Globalization.CultureInfo.InvariantCulture);
    }
}
