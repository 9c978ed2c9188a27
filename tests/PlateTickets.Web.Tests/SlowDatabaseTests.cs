using System.Diagnostics;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Web.Tests.OldRooms;
using Xunit.Abstractions;

namespace PlateTickets.Web.Tests;

/// <summary>A PostgreSQL server at the end of a bad wire.</summary>
public sealed class SlowDatabaseTests(PostgresServer server, ITestOutputHelper output) : IClassFixture<PostgresServer>
{
    [Fact]
    public async Task SlowThenStalled_ScansWaitOrAreAnsweredToComeAgain_NoneIsLostOrDoubled_AndTheBoardRecovers()
    {
        var database = new NpgsqlConnectionStringBuilder(server.Connection($"plates-{Guid.NewGuid():N}"));
        using var wire = new SlowWire(Path.Combine(database.Host!, ".s.PGSQL.5432"));
        // A call that takes longer than this is given up.
        var slow = new NpgsqlConnectionStringBuilder(database.ConnectionString) { Host = "127.0.0.1", Port = wire.Port, SslMode = SslMode.Disable, CommandTimeout = 3, Timeout = 3, CancellationTimeout = 500 };
        await OldRoom.MakeAsync(database.ConnectionString);
        await using var room = await RoomServer.StartAsync("demo", null, "--Database:Provider", "PostgreSql", "--Database:ConnectionString", slow.ConnectionString);
        using var http = await room.ClientAsync(Role.Manager);
        var scans = new Scans(http);
        await scans.SendAsync(4);

        // Slow: they take their time.
        wire.Delay = TimeSpan.FromMilliseconds(15);
        var watch = Stopwatch.StartNew();
        await scans.SendAsync(3);
        output.WriteLine($"Three scans took {watch.ElapsedMilliseconds} ms with each piece 15 ms late.");
        Assert.Equal(7, scans.Answered.Count);
        Assert.Empty(scans.Open);
        wire.Delay = TimeSpan.Zero;

        // Stalled in the middle of scans: each is answered all the same, and says that it should come again.
        var sending = Enumerable.Range(0, 3).Select(_ => scans.UntilRefusedAsync(most: 2000)).ToList();
        for (var before = scans.Answered.Count; scans.Answered.Count < before + 6; await Task.Delay(5))
        {
            Assert.DoesNotContain(sending, s => s.IsCompleted);
        }

        wire.Hold();
        foreach (var problem in await Task.WhenAll(sending).WaitAsync(TimeSpan.FromSeconds(30)))
        {
            Assert.Equal(503, problem.GetProperty("status").GetInt32());
            Assert.Equal("database-away", problem.GetProperty("code").GetString());
            Assert.StartsWith("The database does not answer at the moment", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        }

        var open = scans.Open.Count;
        Assert.Equal(3, open);
        wire.Let();
        for (watch.Restart(); !scans.Open.IsEmpty; await scans.SendAgainAsync())
        {
            Assert.True(watch.Elapsed < TimeSpan.FromSeconds(30), "The scans were not taken within half a minute of the wire's return.");
        }

        await scans.SendAsync(5);
        await scans.CheckAsync(room);

        // The board shows what is in the database, and the plan goes on from there.
        var board = room.Services.GetRequiredService<BoardState>();
        await using var db = await room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync();
        var running = await db.Sheets.AsNoTracking().Where(s => s.State == SheetState.Running).Select(s => s.Id).OrderBy(id => id).ToListAsync();
        for (watch.Restart(); !board.Now.Sheets.Values.Where(s => s.State == SheetState.Running).Select(s => s.Id).Order().SequenceEqual(running); await Task.Delay(20))
        {
            Assert.True(watch.Elapsed < TimeSpan.FromSeconds(30), "The board did not recover.");
        }

        Assert.NotEmpty((await http.GetFromJsonAsync<JsonElement>("/api/v1/board")).GetProperty("sheets").EnumerateArray());
    }
}
