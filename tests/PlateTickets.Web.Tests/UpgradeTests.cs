using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Web.Startup.Backups;
using PlateTickets.Web.Tests.Accounts;
using PlateTickets.Web.Tests.OldRooms;

namespace PlateTickets.Web.Tests;

/// <summary>Today's program over a room that an earlier version made, the way back, and that version's writing beside today's.</summary>
public sealed class UpgradeTests(PostgresServer server) : IClassFixture<PostgresServer>, IDisposable
{
    // Those that nothing writes by itself.
    private static readonly string[] Quiet = ["Customers", "LampReadings", "Orders", "Placements", "Plates", "RecipeRevisions", "Scans", "Separations", "SeparationPreviews", "Sheets", "Stages", "StockLots", "Tickets"];

    private readonly string _data = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");

    private string File => Path.Combine(_data, "plate-room.db");

    public void Dispose()
    {
        SqliteConnection.ClearAllPools();
        if (Directory.Exists(_data))
        {
            Directory.Delete(_data, recursive: true);
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task OldRoom_IsBroughtUpToDate_WithAllThatIsInIt(bool postgreSql)
    {
        var database = postgreSql ? server.Connection($"plates-{Guid.NewGuid():N}") : "";
        var before = await MakeOldAsync(database);
        Assert.Equal(8, before["Orders"]);
        await using var room = await RoomServer.StartInAsync(_data, "demo", null, postgreSql ? ["--Database:Provider", "PostgreSql", "--Database:ConnectionString", database] : []);
        await using (var db = postgreSql ? OldRoom.OpenPostgreSql(database) : OldRoom.OpenSqlite(File))
        {
            Assert.Empty(await db.Database.GetPendingMigrationsAsync());
            var after = await OldRoom.CountsAsync(db);
            Assert.All(before, t => Assert.True(after[t.Key] >= t.Value, $"{t.Key} had {t.Value} rows and has {after[t.Key]}."));
            Assert.All(Quiet, t => Assert.Equal(before[t], after[t]));
            await db.Database.OpenConnectionAsync();
            Assert.Null((await new AuditCheck(db.Database.GetDbConnection()).WalkAsync()).Wrong);
        }

        // The plan is made of what was open.
        var book = room.Services.GetRequiredService<PlanBook>();
        for (var waited = Stopwatch.StartNew(); book.Now is null; await Task.Delay(20))
        {
            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(30), "No plan was made.");
        }

        var live = book.Now!.Live;
        Assert.NotEmpty(live.Request.Sheets);
        Assert.Empty(PlanChecker.Violations(live.Request, live.Plan));

        // Programs get their answers, and work goes on.
        using var http = await room.ClientAsync(Role.Manager);
        List<JsonElement> orders =
        [
            .. (await http.GetFromJsonAsync<JsonElement>("/api/v1/orders")).GetProperty("orders").EnumerateArray(),
            .. (await http.GetFromJsonAsync<JsonElement>("/api/v1/orders?done=true")).GetProperty("orders").EnumerateArray(),
        ];
        Assert.Equal(8, orders.Count);
        foreach (var order in orders)
        {
            Assert.NotEmpty((await http.GetFromJsonAsync<JsonElement>($"/api/v1/tickets/{order.GetProperty("number").GetString()}")).GetProperty("title").GetString()!);
        }

        foreach (var list in new[] { "orders.csv", "plates.csv?from=2026-11-01&to=2026-11-26", "recipes.csv", "audit.csv", "report.csv?from=2026-11-23&to=2026-11-25" })
        {
            using var reply = await http.GetAsync("/api/v1/" + list);
            Assert.True(reply.StatusCode == HttpStatusCode.OK, $"{list}: {reply.StatusCode}");
            Assert.True((await reply.Content.ReadAsStringAsync()).Split('\n').Length > 2, list);
        }

        var scans = new Scans(http);
        await scans.SendAsync(12);
        Assert.Equal(12, scans.Answered.Count);
        await scans.CheckAsync(room);
        Assert.NotEmpty(await room.Services.GetRequiredService<TicketSearch>().FindAsync(new TicketAsk(orders[0].GetProperty("customer").GetString()!), null, 500));
        // And people their pages.
        using var person = await Visitor.AsDemoAsync(room, Role.Manager);
        foreach (var page in new[] { Urls.Orders, Urls.Board, Urls.Recipes, Urls.Stock, Urls.Handover, Urls.Timeline, Urls.Account })
        {
            using var reply = await person.GetAsync(page);
            Assert.Equal(HttpStatusCode.OK, reply.StatusCode);
        }
    }

    [Fact]
    public async Task SqliteRoom_IsCopiedBefore_AndTheCopyIsWhatTheOldVersionOpens()
    {
        var before = await MakeOldAsync("");
        var schema = await OldRoom.SchemaAsync(File);
        // Copies of earlier upgrades: the oldest goes.
        var copies = Path.Combine(_data, "before-upgrades");
        Directory.CreateDirectory(copies);
        foreach (var earlier in new[] { "20260101000000_One", "20260201000000_Two", "20260301000000_Three" })
        {
            await System.IO.File.WriteAllTextAsync(Path.Combine(copies, $"plate-room.before-{earlier}.db"), "");
        }

        string[] pending;
        await using (var old = OldRoom.OpenSqlite(File))
        {
            pending = [.. await old.Database.GetPendingMigrationsAsync()];
        }

        await using (var room = await RoomServer.StartInAsync(_data))
        {
            using var http = await room.ClientAsync(Role.Manager);
            await new Scans(http).SendAsync(3);
            Assert.Equal(
                [$"plate-room.before-20260201000000_Two.db", "plate-room.before-20260301000000_Three.db", $"plate-room.before-{pending[0]}.db"],
                Directory.EnumerateFiles(copies).Select(Path.GetFileName).Order(StringComparer.Ordinal));

            // As docs/running.md says it: the file takes the place of the database. Here it is looked at where it lies.
            var copy = Path.Combine(copies, $"plate-room.before-{pending[0]}.db");
            Assert.Equal(schema, await OldRoom.SchemaAsync(copy));
            await using var back = OldRoom.OpenSqlite(copy);
            Assert.Equal(before, await OldRoom.CountsAsync(back));
            Assert.Equal(pending, await back.Database.GetPendingMigrationsAsync());
            await back.Database.OpenConnectionAsync();
            Assert.Empty(BackupDatabase.Faults((SqliteConnection)back.Database.GetDbConnection()));
            Assert.Null((await new AuditCheck(back.Database.GetDbConnection()).WalkAsync()).Wrong);
        }
    }

    [Fact]
    public async Task NewRoom_HasNothingToLose_AndIsNotCopied()
    {
        await using var room = await RoomServer.StartInAsync(_data, "empty", null, "--Room:ImproveSeconds", "0");
        Assert.True(System.IO.File.Exists(File));
        Assert.False(Directory.Exists(Path.Combine(_data, "before-upgrades")));
    }

    /// <summary>While one node is new already and the other is not, the old one writes into the new tables.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task TheOldVersion_GoesOnWriting_WhenTheTablesAreNew(bool postgreSql)
    {
        Directory.CreateDirectory(_data);
        var database = postgreSql ? server.Connection($"plates-{Guid.NewGuid():N}") : "";
        await using var db = postgreSql ? OldRoom.OpenPostgreSql(database) : OldRoom.OpenSqlite(File);
        await db.Database.MigrateAsync();
        await OldRoom.WriteRowsAsync(db);

        // And today's program reads it.
        Assert.Equal(8, await db.Orders.CountAsync(o => o.Ticket!.Plates.Count > 0 || o.Ticket.State == Tickets.Orders.TicketState.WaitingForFiles));
        Assert.Equal(await db.Stages.CountAsync(), (await db.Sheets.AsNoTracking().Include(s => s.Stages).ToListAsync()).Sum(s => s.Stages.Count));
    }

    private async Task<SortedDictionary<string, long>> MakeOldAsync(string postgreSql)
    {
        Directory.CreateDirectory(_data);
        await using var db = postgreSql.Length > 0 ? OldRoom.OpenPostgreSql(postgreSql) : OldRoom.OpenSqlite(File);
        await OldRoom.MakeTablesAsync(db);
        await OldRoom.WriteRowsAsync(db);
        Assert.NotEmpty(await db.Database.GetPendingMigrationsAsync());
        return await OldRoom.CountsAsync(db);
    }
}
