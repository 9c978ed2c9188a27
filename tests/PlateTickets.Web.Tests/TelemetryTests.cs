using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Startup.Telemetry;

namespace PlateTickets.Web.Tests;

/// <summary>Runs by itself: what collects figures hears every room of the process.</summary>
[CollectionDefinition(nameof(CollectsFigures), DisableParallelization = true)]
public sealed class CollectsFigures;

[Collection(nameof(CollectsFigures))]
public sealed class TelemetryTests
{
    [Fact]
    public async Task Figures_AreTheRooms_AndOnlyForWhoKeepsTheProgram()
    {
        await using var room = await RoomServer.StartAsync();
        using var nobody = new HttpClient { BaseAddress = new Uri(room.Url) };
        foreach (var health in new[] { RoomTelemetry.Live, RoomTelemetry.Ready })
        {
            Assert.Equal("Healthy", await nobody.GetStringAsync(new Uri(health, UriKind.Relative)));
        }

        using var csr = await room.ClientAsync(Role.Csr);
        Assert.Equal(HttpStatusCode.Forbidden, (await csr.GetAsync(new Uri(RoomTelemetry.Figures, UriKind.Relative))).StatusCode);

        int waiting;
        await using (var db = await room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync())
        {
            waiting = await db.Sheets.CountAsync(s => s.State == SheetState.Waiting && s.Stages.OrderBy(t => t.Station).First(t => t.State != StageState.Done).Station == Station.BackExposure);
        }

        var desk = room.Services.GetRequiredService<ScanDesk>();
        await desk.RecordAsync(new ScanRequest(Guid.NewGuid(), "no number", "frame-1", ScanAction.Next, "Test") { Ticked = CheckLists.All });
        using var keeper = await room.ClientAsync(Role.Administrator);
        var figures = "";
        // The collector answers with what it has for a short while, and the board may still be read.
        for (var i = 0; i < 100 && !Says(figures, "plateroom_sheets", waiting, "station=\"BackExposure\"", "state=\"waiting\""); i++)
        {
            await Task.Delay(100);
            figures = await keeper.GetStringAsync(new Uri(RoomTelemetry.Figures, UriKind.Relative));
        }

        Assert.True(Says(figures, "plateroom_sheets", waiting, "station=\"BackExposure\"", "state=\"waiting\""), figures);
        Assert.True(Says(figures, "plateroom_scan_duration_seconds_count", 1, "outcome=\"refused\""), figures);
        Assert.True(Says(figures, "plateroom_planner", 1), figures);
        Assert.Contains("plateroom_tickets{", figures, StringComparison.Ordinal);
        Assert.Contains("kestrel_active_connections", figures, StringComparison.Ordinal);
    }

    private static bool Says(string figures, string name, int value, params string[] tags) => figures.Split('\n').Any(line =>
        line.StartsWith(name, StringComparison.Ordinal) && tags.All(t => line.Contains(t, StringComparison.Ordinal)) && line.Split(' ').ElementAtOrDefault(1) == $"{value}");
}
