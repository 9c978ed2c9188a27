using System.Diagnostics;
using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Startup.Telemetry;
using Xunit.Abstractions;

namespace PlateTickets.Web.Tests;

/// <summary>The room's disk is full, or its database is slow. What was acknowledged is stored, once, and the program goes on by itself.</summary>
public sealed class FaultTests(ITestOutputHelper output)
{
    [Fact]
    public async Task DiskFull_ScansAreRefusedWithASentence_NoneAcknowledgedIsLost_AndTheyGoOnWhenThereIsRoom()
    {
        using var disk = new SmallDisk();
        await using var room = await RoomServer.StartInAsync(disk.Data, "demo", disk.Customise);
        using var http = await room.ClientAsync(Role.Manager);
        var scans = new Scans(http);
        await scans.SendAsync(20);
        Assert.Equal(20, scans.Answered.Count);

        disk.Fill(leave: 300_000);
        var refused = await scans.UntilRefusedAsync(most: 2000);
        output.WriteLine($"After {scans.Answered.Count} scans: {refused}");
        Assert.Equal((int)HttpStatusCode.InsufficientStorage, refused.GetProperty("status").GetInt32());
        Assert.Equal("disk-full", refused.GetProperty("code").GetString());
        Assert.StartsWith("The disk of the database is full, so nothing can be saved. Make room on that disk", refused.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", refused.ToString(), StringComparison.Ordinal);
        // Whoever watches is told. A smaller write of the plan may just have fitted: then the next scan that does not is noticed.
        var ready = await ReadyAsync(http);
        for (var i = 0; ready == "Healthy" && i < 20; i++)
        {
            await scans.UntilRefusedAsync(most: 2000);
            ready = await ReadyAsync(http);
        }

        Assert.StartsWith("The disk of the database is full", ready, StringComparison.Ordinal);
        // Whoever looks still sees the board.
        Assert.NotEmpty((await http.GetFromJsonAsync<JsonElement>("/api/v1/board")).GetProperty("sheets").EnumerateArray());

        disk.Empty();
        await scans.SendAgainAsync();
        await scans.SendAsync(20);
        Assert.Empty(scans.Open);
        Assert.Equal("Healthy", await ReadyAsync(http));
        await scans.CheckAsync(room);
    }

    [Fact]
    public async Task AnotherProgramHoldsTheWriteLock_ScansWait_AndAreTakenOnce()
    {
        await using var room = await RoomServer.StartAsync();
        using var http = await room.ClientAsync(Role.Manager);
        var scans = new Scans(http);
        await scans.SendAsync(5);
        string file;
        await using (var db = await room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync())
        {
            file = db.Database.GetDbConnection().DataSource;
        }

        await using (var other = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = file, Pooling = false }.ToString()))
        {
            await other.OpenAsync();
            await using var held = await other.BeginTransactionAsync();
            var sent = Enumerable.Range(0, 4).Select(_ => scans.SendAsync(5)).ToList();
            // Longer than a person waits; whoever only looks waits for nobody.
            for (var waited = Stopwatch.StartNew(); waited.Elapsed < TimeSpan.FromSeconds(2); await Task.Delay(50))
            {
                using var board = await http.GetAsync("/api/v1/board");
                Assert.Equal(HttpStatusCode.OK, board.StatusCode);
            }

            Assert.Equal(5, scans.Answered.Count);
            await held.RollbackAsync();
            await Task.WhenAll(sent);
        }

        Assert.Empty(scans.Open);
        Assert.Equal(25, scans.Answered.Count);
        await scans.CheckAsync(room);
    }

    private static async Task<string> ReadyAsync(HttpClient http)
    {
        using var ready = await http.GetAsync(new Uri(RoomTelemetry.Ready, UriKind.Relative));
        var said = await ready.Content.ReadAsStringAsync();
        Assert.Equal(said == "Healthy" ? HttpStatusCode.OK : HttpStatusCode.ServiceUnavailable, ready.StatusCode);
        return said;
    }
}
