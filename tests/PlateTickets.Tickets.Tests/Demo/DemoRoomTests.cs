using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Tickets.Demo;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Tickets.Tests.Demo;

public class DemoRoomTests
{
    [Fact]
    public async Task DemoRoom_HasFortyTicketsInAllStates_AndSheetsAtTheStations()
    {
        await using var room = await RoomFixture.CreateAsync(played: true);
        await using var db = room.CreateDbContext();
        var states = await db.Tickets.GroupBy(t => t.State).Select(g => new { g.Key, Count = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Count);
        Assert.Equal(40, states.Values.Sum());
        Assert.Equal(Enum.GetValues<TicketState>().Order(), states.Keys.Order());
        Assert.True(await db.Sheets.CountAsync(s => s.State == SheetState.Running) > 0);
        Assert.Equal(1, await db.Sheets.CountAsync(s => s.State == SheetState.OnHold));
    }

    /// <summary>The published plan of the whole demo room, checked by the checker that knows nothing of the planner.</summary>
    [Fact]
    public async Task DemoRoom_Plan_BreaksNoRule()
    {
        await using var room = await RoomFixture.CreateAsync(played: true);
        await using var db = room.CreateDbContext();
        var sheets = await db.Sheets.AsNoTracking().Include(s => s.Stages)
            .Where(s => s.State == SheetState.Waiting || s.State == SheetState.Running).ToListAsync();
        var due = await db.Placements.GroupBy(p => p.SheetId)
            .Select(g => new { g.Key, Due = g.Min(p => p.Plate!.Ticket!.Order!.DueUtc) }).ToDictionaryAsync(g => g.Key, g => new SheetDue(g.Due, 1));
        var (request, _) = PlanInput.Build(await room.Rooms.GetAsync(), sheets, due, room.Now);
        Assert.True(request.Sheets.Count > 5);
        Assert.Empty(PlanChecker.Violations(request, DispatchPlanner.Build(request)));
    }

    [Fact]
    public async Task EmptyRoom_HasShiftsAndNothingElse()
    {
        await using var room = await RoomFixture.CreateAsync(RoomStartKind.Empty);
        var catalog = await room.Rooms.GetAsync();
        Assert.Equal(2, catalog.Site.Shifts.Count);
        Assert.False(catalog.Site.IsDemo);
        Assert.Empty(catalog.Equipment);
        Assert.Empty(catalog.Materials);
        Assert.Equal(0, await room.Plans.ReplanAsync());
    }

    [Fact]
    public async Task FilledRoom_IsLeftAlone()
    {
        await using var room = await RoomFixture.CreateAsync();
        Assert.False(await new RoomStart(room, room.Clock).FillAsync(RoomStartKind.Demo, TimeZoneInfo.Utc));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(14)]
    [InlineData(22)]
    public async Task DemoRoom_StartsAtAnyHour(int hour)
    {
        await using var room = await RoomFixture.CreateAsync(played: true, hour: hour);
        await using var db = room.CreateDbContext();
        Assert.Equal(40, await db.Tickets.CountAsync());
    }
}
