using Microsoft.EntityFrameworkCore;

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
        Assert.Equal("wal", await PragmaAsync(db, "journal_mode"));
        // 2 is FULL: every commit is on disk before it is acknowledged (SQLite documentation, PRAGMA synchronous).
        Assert.Equal("2", await PragmaAsync(db, "synchronous"));
    }

    private static async Task<string?> PragmaAsync(PlateRoomDb db, string name)
    {
        await using var command = db.Database.GetDbConnection().CreateCommand();
        command.CommandText = $"PRAGMA {name}";
        return Convert.ToString(await command.ExecuteScalarAsync(), System.Globalization.CultureInfo.InvariantCulture);
    }
}
