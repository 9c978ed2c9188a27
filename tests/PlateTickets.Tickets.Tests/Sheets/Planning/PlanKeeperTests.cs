using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Sheets.Planning;

public class PlanKeeperTests
{
    [Fact]
    public async Task Replan_WhileASheetIsScanned_KeepsTheScan_WritesTheOthers_AndAsksForAnotherPlan()
    {
        await using var room = await RoomFixture.CreateAsync();
        var scanned = (await room.OrderAsync(["Cyan"])).Sheets[0];
        var other = (await room.OrderAsync(["Black"])).Sheets[0];
        var before = await StagesAsync(room, other.Id);
        room.Clock.Advance(TimeSpan.FromMinutes(30));
        var asked = 0;
        // The plan asks for the time when it has read the sheets: so late the scan comes.
        var clock = new Interrupted(room.Clock, () => Task.Run(() => room.Desk.RecordAsync(
            new ScanRequest(Guid.NewGuid(), scanned.Number, "frame-1", ScanAction.Start, "Operator") { Ticked = Process.Recipes.CheckLists.All })).GetAwaiter().GetResult());
        using var plans = new PlanKeeper(room, room.Rooms, new StageSpreads(room, room.Rooms, room.Clock), room.Book, room.Events, clock);
        room.Events.PlanWanted += () => asked++;
        await plans.ReplanAsync();

        Assert.True(clock.Reply!.Accepted, clock.Reply.Sentence);
        var first = (await StagesAsync(room, scanned.Id))[0];
        Assert.Equal((StageState.Running, (DateTime?)room.Now), (first.State, first.StartedUtc));
        var moved = await StagesAsync(room, other.Id);
        Assert.True(moved[0].PlannedStartUtc > before[0].PlannedStartUtc);
        // Once by the scan, once by the plan that passed it over.
        Assert.Equal(2, asked);
    }

    private static async Task<List<Stage>> StagesAsync(RoomFixture room, int sheet)
    {
        await using var db = room.CreateDbContext();
        return await db.Stages.AsNoTracking().Where(s => s.SheetId == sheet).OrderBy(s => s.Station).ToListAsync();
    }

    private sealed class Interrupted(TimeProvider clock, Func<ScanReply> by) : TimeProvider
    {
        public ScanReply? Reply { get; private set; }

        public override DateTimeOffset GetUtcNow()
        {
            Reply ??= by();
            return clock.GetUtcNow();
        }
    }
}
