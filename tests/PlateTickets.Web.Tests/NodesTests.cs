using System.Diagnostics;
using System.Net;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Time.Testing;
using Npgsql;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Commands;
using PlateTickets.Web.Startup.Copies;
using PlateTickets.Web.Startup.Nodes;
using PlateTickets.Web.Startup.Telemetry;
using Xunit.Abstractions;

namespace PlateTickets.Web.Tests;

/// <summary>Several nodes of the whole program on one PostgreSQL server.</summary>
public sealed class NodesTests(PostgresServer server, ITestOutputHelper output) : IClassFixture<PostgresServer>
{
    // Each test has a database of its own.
    private readonly string _room = $"plates-{Guid.NewGuid():N}";

    [Fact]
    public async Task WhatOneNodeCommits_TheOtherShows_AndOnlyOnePlans()
    {
        await using var first = await NodeAsync();
        await using var second = await NodeAsync();
        var (seatA, seatB) = (Get<PlannerSeat>(first), Get<PlannerSeat>(second));
        await UntilAsync(() => seatA.IsOurs != seatB.IsOurs);
        var (board, book) = (Get<BoardState>(second), Get<PlanBook>(second));
        await UntilAsync(() => board.Now.Sheets.Count > 0 && book.Now is not null && Get<PlanBook>(first).Now is not null);

        // A scan.
        var room = await Get<RoomCatalog>(first).GetAsync();
        var next = await NextAsync(first);
        var watch = Stopwatch.StartNew();
        var reply = await Get<ScanDesk>(first).RecordAsync(Start(next.Number, "frame-1"));
        Assert.True(reply.Accepted, reply.Sentence);
        await UntilAsync(() => board.Now.Sheets[next.Id].State == SheetState.Running);
        output.WriteLine($"A scan at one node stood on the board of the other after {watch.ElapsedMilliseconds} ms.");

        // The same plan on both, of which one made it and the other read it.
        await UntilAsync(() => Planned(first) is { Count: > 0 } plan && plan.SequenceEqual(Planned(second)));

        // A setting.
        var units = room.Site.Units == LengthSystem.Metric ? LengthSystem.Inch : LengthSystem.Metric;
        await Get<SiteSettings>(first).SetUnitsAsync(units, "Test");
        await UntilAsync(() => Get<RoomCatalog>(second).GetAsync().AsTask().GetAwaiter().GetResult().Site.Units == units);

        // A cookie.
        var secret = Get<IDataProtectionProvider>(first).CreateProtector("test").Protect("who");
        Assert.Equal("who", Get<IDataProtectionProvider>(second).CreateProtector("test").Unprotect(secret));
    }

    [Fact]
    public async Task WhenThePlanningNodeIsKilled_AnotherPlans()
    {
        await using (await NodeAsync())
        {
            // Fills the room in the morning, whatever the time is now: then work waits.
        }

        var data = Directory.CreateTempSubdirectory("plate-room-").FullName;
        using var killed = System.Diagnostics.Process.Start("dotnet",
            [Path.Combine(AppContext.BaseDirectory, "PlateTickets.Web.dll"), "--urls", "http://127.0.0.1:0", "--data", data, "--contentRoot", AppContext.BaseDirectory, "--Room:TimeZone", "UTC", "--Logging:LogLevel:Default", "Error", .. OnServer]);
        try
        {
            await UntilAsync(() => IsTakenAsync().GetAwaiter().GetResult(), TimeSpan.FromMinutes(1));
            await using var other = await NodeAsync();
            var seat = Get<PlannerSeat>(other);
            await Task.Delay(TimeSpan.FromSeconds(3));
            Assert.False(seat.IsOurs);

            var watch = Stopwatch.StartNew();
            killed.Kill();
            await UntilAsync(() => seat.IsOurs, TimeSpan.FromSeconds(10));
            output.WriteLine($"The seat was taken over {watch.ElapsedMilliseconds} ms after the planning node was killed.");
            var next = await NextAsync(other);
            Assert.True((await Get<ScanDesk>(other).RecordAsync(Start(next.Number, "frame-1"))).Accepted);
            await UntilAsync(() => Get<PlanBook>(other).Now?.Live.Request.Sheets.SelectMany(s => s.Stages).Any(s => s.Running is not null) == true);
        }
        finally
        {
            killed.Kill();
            await killed.WaitForExitAsync();
            Directory.Delete(data, recursive: true);
        }
    }

    [Fact]
    public async Task DatabaseStoppedAndStarted_ScansAreRefusedMeanwhile_AndTheNodesHearEachOtherAgain()
    {
        await using var first = await NodeAsync();
        await using var second = await NodeAsync();
        var board = Get<BoardState>(second);
        await UntilAsync(() => board.Now.Sheets.Count > 0);
        var next = await NextAsync(first);
        await server.StopAsync();
        await Assert.ThrowsAnyAsync<Exception>(() => Get<ScanDesk>(first).RecordAsync(Start(next.Number, "frame-1")));
        using var http = new HttpClient { BaseAddress = new Uri(first.Url) };
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync(new Uri(RoomTelemetry.Live, UriKind.Relative))).StatusCode);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, (await http.GetAsync(new Uri(RoomTelemetry.Ready, UriKind.Relative))).StatusCode);
        await server.StartAsync();
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync(new Uri(RoomTelemetry.Ready, UriKind.Relative))).StatusCode);

        var reply = await Get<ScanDesk>(first).RecordAsync(Start(next.Number, "frame-1"));
        Assert.True(reply.Accepted, reply.Sentence);
        await UntilAsync(() => board.Now.Sheets[next.Id].State == SheetState.Running);
        await UntilAsync(() => Get<PlannerSeat>(first).IsOurs != Get<PlannerSeat>(second).IsOurs);
        await using var db = await Get<IDbContextFactory<PlateRoomDb>>(second).CreateDbContextAsync();
        Assert.Equal(1, await db.Scans.CountAsync(s => s.Id == reply.Id));
    }

    [Fact]
    public async Task Copy_OfASqliteRoom_IsTheSame_GoesOn_AndIsMadeOnceOnly()
    {
        var data = Path.Combine(Path.GetTempPath(), $"plate-room-{Guid.NewGuid():N}");
        var to = server.Connection(_room);
        try
        {
            var (status, _, errors) = await CommandAsync("copy", "--to", to, "--data", data);
            Assert.Equal(1, status);
            Assert.Contains("There is no room in", errors, StringComparison.Ordinal);
            await using (var room = PlateRoomApp.Build(
                ["--data", data, "--Room:TimeZone", "UTC"],
                builder => builder.Services.Replace(ServiceDescriptor.Singleton<TimeProvider>(new FakeTimeProvider(RoomServer.Morning)))))
            {
                await PlateRoomApp.PrepareAsync(room);
                // The keys of the cookies are made when somebody asks for one.
                room.Services.GetRequiredService<IDataProtectionProvider>().CreateProtector("test").Protect("who");
            }

            var (ended, said, wrong) = await CommandAsync("copy", "--to", to, "--data", data);
            output.WriteLine(said);
            Assert.True(ended == 0, wrong);
            Assert.Contains("are the same on both sides", said, StringComparison.Ordinal);
            Assert.Contains("is not empty", (await CommandAsync("copy", "--to", to, "--data", data)).Errors, StringComparison.Ordinal);

            // The room goes on there: its trail is whole, its tickets are found, new rows get new numbers.
            await using var node = await RoomServer.StartAsync("demo", null, OnServer);
            var next = await NextAsync(node);
            Assert.True((await Get<ScanDesk>(node).RecordAsync(Start(next.Number, "frame-1"))).Accepted);
            await Get<SiteSettings>(node).SetUnitsAsync(LengthSystem.Inch, "Test");
            await using var db = await Get<IDbContextFactory<PlateRoomDb>>(node).CreateDbContextAsync();
            await db.Database.OpenConnectionAsync();
            Assert.Null((await new AuditCheck(db.Database.GetDbConnection()).WalkAsync()).Wrong);
            Assert.NotEmpty(await db.ProtectionKeys.ToListAsync());
            var order = await db.Orders.AsNoTracking().OrderBy(o => o.Id).Select(o => new { o.Id, Customer = o.Customer!.Name }).FirstAsync();
            Assert.Contains(order.Id, await Get<TicketSearch>(node).FindAsync(new TicketAsk(order.Customer), null, 500));

            // The proof sees one changed value, when nobody plans any more.
            await node.DisposeAsync();
            await using var still = Open(_room);
            var before = await RoomCopy.FiguresAsync(still);
            await still.Database.ExecuteSqlRawAsync("UPDATE \"Customers\" SET \"Name\" = \"Name\" || ' ' WHERE \"Id\" = 1");
            Assert.Equal(["Customers"], before.Except(await RoomCopy.FiguresAsync(still)).Select(t => t.Name));
        }
        finally
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            if (Directory.Exists(data))
            {
                Directory.Delete(data, recursive: true);
            }
        }
    }

    /// <summary>As docs/backup.md says it.</summary>
    [Fact]
    public async Task Dump_IsRestoredWhole_AndItsTrailStaysAppendOnly()
    {
        await using (var node = await NodeAsync())
        {
            await Get<SiteSettings>(node).SetUnitsAsync(LengthSystem.Inch, "Test");
        }

        await server.DumpAsync(_room, _room + "-restored");
        await using var before = Open(_room);
        await using var restored = Open(_room + "-restored");
        Assert.Equal(await RoomCopy.FiguresAsync(before), await RoomCopy.FiguresAsync(restored));
        Assert.Null((await new AuditCheck(restored.Database.GetDbConnection()).WalkAsync()).Wrong);
        await Assert.ThrowsAsync<PostgresException>(() => restored.Database.ExecuteSqlRawAsync("DELETE FROM \"AuditEntries\" WHERE \"Id\" = 1"));
    }

    private static async Task<(int Status, string Said, string Errors)> CommandAsync(params string[] words)
    {
        using var said = new StringWriter();
        using var errors = new StringWriter();
        return (await RoomCommands.RunAsync(words, said, errors), said.ToString(), errors.ToString());
    }

    private PlateRoomDb Open(string database) => new(new DbContextOptionsBuilder<PlateRoomDb>().UseNpgsql(server.Connection(database)).Options);

    private static ScanRequest Start(string number, string machine) => new(Guid.NewGuid(), number, machine, ScanAction.Start, "Test") { Ticked = CheckLists.All };

    private static List<(int, DateTime, DateTime)> Planned(RoomServer node) =>
        [.. Get<PlanBook>(node).Now?.Live.Plan.Stages.Select(s => (s.StageId, s.StartUtc, s.FinishUtc)).Order() ?? Enumerable.Empty<(int, DateTime, DateTime)>()];

    private static T Get<T>(RoomServer node)
        where T : notnull => node.Services.GetRequiredService<T>();

    private static async Task UntilAsync(Func<bool> holds, TimeSpan? within = null)
    {
        var watch = Stopwatch.StartNew();
        while (!holds())
        {
            Assert.True(watch.Elapsed < (within ?? TimeSpan.FromSeconds(15)), "It did not come about in time.");
            await Task.Delay(10);
        }
    }

    // A sheet that frame 1 can take now: what runs there is out.
    private static async Task<Sheet> NextAsync(RoomServer node)
    {
        await using var db = await Get<IDbContextFactory<PlateRoomDb>>(node).CreateDbContextAsync();
        var desk = Get<ScanDesk>(node);
        foreach (var running in await db.Sheets.AsNoTracking().Where(s => s.Stages.Any(t => t.State == StageState.Running && t.Equipment!.Slug == "frame-1")).ToListAsync())
        {
            await desk.RecordAsync(new ScanRequest(Guid.NewGuid(), running.Number, "frame-1", ScanAction.Finish, "Test", Confirmed: true));
        }

        return await db.Sheets.AsNoTracking()
            .Where(s => s.State == SheetState.Waiting && s.Stages.OrderBy(t => t.Station).First(t => t.State != StageState.Done).Station == Station.BackExposure)
            .OrderBy(s => s.Id).FirstAsync();
    }

    private string[] OnServer => ["--Database:Provider", "PostgreSql", "--Database:ConnectionString", server.Connection(_room)];

    private Task<RoomServer> NodeAsync() => RoomServer.StartAsync("demo", null, OnServer);

    private async Task<bool> IsTakenAsync()
    {
        await using var connection = new NpgsqlConnection(server.Connection(_room));
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("SELECT count(*) FROM pg_locks WHERE locktype = 'advisory' AND objid::bigint = 1702035459 AND granted", connection);
        return await command.ExecuteScalarAsync() is > 0L;
    }
}
