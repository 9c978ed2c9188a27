using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling.Checking;
using PlateTickets.Tickets.Demo;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;

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

    /// <summary>The published plan of the whole demo room, and the improved one, checked by the checker that knows nothing of the planner.</summary>
    [Fact]
    public async Task DemoRoom_PublishedPlan_BreaksNoRule()
    {
        await using var room = await RoomFixture.CreateAsync(played: true);
        await room.Plans.ReplanAsync();
        var first = room.Book.Now!.Live;
        Assert.True(first.Request.Sheets.Count > 5);
        Assert.NotNull(first.Request.Operators);
        Assert.Contains(first.Request.Sheets.SelectMany(s => s.Stages), s => s.LongestWaitAfter is not null);
        Assert.Empty(PlanChecker.Violations(first.Request, first.Plan));
        await room.Study.ImproveAsync(TimeSpan.FromSeconds(1), workers: 1, seed: 1);
        var improved = room.Book.Now!.Live;
        Assert.True(improved.Plan.Cost <= first.Plan.Cost);
        Assert.Empty(PlanChecker.Violations(improved.Request, improved.Plan));
        await using var db = room.CreateDbContext();
        var stages = await db.Stages.AsNoTracking().ToDictionaryAsync(s => s.Id);
        Assert.All(improved.Plan.Stages, p => Assert.Equal((p.StartUtc, p.FinishUtc, p.EquipmentId), (stages[p.StageId].PlannedStartUtc, stages[p.StageId].PlannedFinishUtc, stages[p.StageId].EquipmentId!.Value)));
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
