using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Demo;

namespace PlateTickets.Benchmarks.Rooms;

/// <summary>A room in a database of its own, made by the migrations, with a clock that goes on by hand.</summary>
internal sealed class BenchRoom : TimeProvider, IDbContextFactory<PlateRoomDb>, IAsyncDisposable
{
    private readonly DbContextOptions<PlateRoomDb> _options;

    private BenchRoom() => _options = new DbContextOptionsBuilder<PlateRoomDb>()
        .UseSqlite($"Data Source={File}", sqlite => sqlite.MigrationsAssembly("PlateTickets.Migrations.Sqlite"))
        .AddInterceptors(new SqliteDurability())
        .Options;

    public string File { get; } = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}.db");

    public DateTime NowUtc { get; set; } = new(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);

    public static async Task<BenchRoom> CreateAsync(RoomStartKind start)
    {
        var room = new BenchRoom();
        await using var db = room.CreateDbContext();
        await db.Database.MigrateAsync();
        await new RoomStart(room, room).FillAsync(start, TimeZoneInfo.Utc);
        return room;
    }

    public PlateRoomDb CreateDbContext() => new(_options) { Clock = this };

    public override DateTimeOffset GetUtcNow() => new(NowUtc);

    public ValueTask DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        foreach (var file in Directory.EnumerateFiles(Path.GetDirectoryName(File)!, Path.GetFileName(File) + "*"))
        {
            new FileInfo(file).Delete();
        }

        return ValueTask.CompletedTask;
    }
}
