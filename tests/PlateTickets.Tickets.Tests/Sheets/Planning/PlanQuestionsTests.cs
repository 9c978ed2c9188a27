using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations.Duty;

namespace PlateTickets.Tickets.Tests.Sheets.Planning;

/// <summary>What people ask of the plan: promise, what if, why late; and what they do to it.</summary>
public class PlanQuestionsTests
{
    [Fact]
    public async Task Promise_OfAnEmptyRoom_IsTheWorkItself_AndTheOrderThenIsPlannedByIt()
    {
        await using var room = await RoomFixture.CreateAsync();
        var catalog = await room.Rooms.GetAsync();
        var material = catalog.Presses[0].UsualMaterialId;
        var shelf = await room.Layouts.ShelfAsync(material, plates: 1);
        var sheets = shelf.Lay([new(0, 300_000, 390_104)], catalog.NestRules).Sheets.Select(s => AskedSheet.Of(shelf.AsMade(catalog, s))).ToList();
        var promise = await Desk(room).AskAsync(material, sheets);
        Assert.Equal(1, promise.Sheets);
        Assert.Empty(promise.InTurn.Pushed);
        Assert.True(promise.InTurn.Finish.Half <= promise.InTurn.Finish.Eighty && promise.InTurn.Finish.Eighty <= promise.InTurn.Finish.NinetyFive);
        var order = await room.OrderAsync(["Cyan"]);
        Assert.Equal(promise.InTurn.PlannedUtc, order.PlannedDoneUtc!.Value, TimeSpan.FromSeconds(2));
    }

    [Fact]
    public async Task Promise_WithoutARecipe_SaysSo()
    {
        await using var room = await RoomFixture.CreateAsync();
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => Desk(room).AskAsync(4711, []));
        Assert.Contains("has no released recipe", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Promise_IsRoundedUpToFiveMinutes()
    {
        var at = new DateTime(2026, 11, 25, 14, 0, 1, DateTimeKind.Utc);
        Assert.Equal(new DateTime(2026, 11, 25, 14, 5, 0, DateTimeKind.Utc), PromiseDesk.Rounded(at));
        Assert.Equal(PromiseDesk.Rounded(at), PromiseDesk.Rounded(PromiseDesk.Rounded(at)));
    }

    [Fact]
    public async Task Simulation_GivesEachOpenTicketAChance_AndTheBoardShowsIt()
    {
        await using var room = await RoomFixture.CreateAsync();
        var easy = await room.OrderAsync(["Cyan"], dueHours: 30);
        var hopeless = await room.OrderAsync(["Black"], dueHours: 1);
        Assert.True(room.Study.Simulate());
        Assert.InRange(room.Book.LateChance(easy.Order.Id)!.Value, 0, 0.05);
        Assert.InRange(room.Book.LateChance(hopeless.Order.Id)!.Value, 0.95, 1);
        await room.Board.ReloadAsync();
        var late = room.Board.Now.Sheets.Values.Single(s => s.Tickets[0].Id == hopeless.Order.Id);
        Assert.Equal(room.Book.LateChance(hopeless.Order.Id), late.LateChance);
        Assert.NotEmpty(late.Why);
        Assert.Empty(room.Board.Now.Sheets.Values.Single(s => s.Tickets[0].Id == easy.Order.Id).Why);
    }

    [Fact]
    public async Task WhatIf_FramesDown_DelaysTheTicket_AndApplyingItDoesTheSame()
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.OrderAsync(["Cyan"]);
        var frames = (await room.Rooms.GetAsync()).Equipment.Where(e => e.Serves.Contains(Station.BackExposure)).ToList();
        var until = room.Now.AddHours(3);
        var answer = await new WhatIf(room.Rooms, room.Book).AskAsync(new Scenario { Down = [.. frames.Select(f => new Downtime(f.Id, room.Now, until))] });
        var moved = Assert.Single(answer!.Tickets);
        Assert.True(moved.AfterUtc - moved.BeforeUtc >= TimeSpan.FromHours(2.5));
        Assert.Equal(order.PlannedDoneUtc, moved.BeforeUtc);

        var duty = new DutyDesk(room, room.Rooms, room.Events, room.Clock);
        foreach (var frame in frames)
        {
            await duty.SetDownAsync(frame.Id, room.Now, until, "vacuum pump", "test");
        }

        await room.Plans.ReplanAsync();
        Assert.Equal(moved.AfterUtc, (await room.Orders.FindAsync(order.Order.Number))!.PlannedDoneUtc);
        Assert.NotNull((await room.Rooms.GetAsync()).DownAt(frames[0].Id, room.Now));

        foreach (var frame in frames)
        {
            await duty.SetUpAsync(frame.Id, "test");
        }

        await room.Plans.ReplanAsync();
        Assert.Equal(moved.BeforeUtc, (await room.Orders.FindAsync(order.Order.Number))!.PlannedDoneUtc!.Value, TimeSpan.FromMinutes(1));
    }

    [Fact]
    public async Task WhatIf_NobodyThere_IsNoPlanUntilSomebodyComes_AndOvertimeHelps()
    {
        await using var room = await RoomFixture.CreateAsync(hour: 21);
        await room.OrderAsync(["Cyan"]);
        var question = new WhatIf(room.Rooms, room.Book);
        var missing = await question.AskAsync(new Scenario { People = [new HeadcountChange(room.Now, room.Now.AddHours(1), -2)] });
        Assert.True(missing!.After.AllDoneUtc > missing.Before.AllDoneUtc);
        var overtime = await question.AskAsync(new Scenario { People = [new HeadcountChange(room.Now.AddHours(1), room.Now.AddHours(8), 1)] });
        Assert.True(overtime!.After.AllDoneUtc < overtime.Before.AllDoneUtc);
        Assert.Equal(room.Now.AddHours(1), overtime.ShiftEndUtc);
    }

    [Fact]
    public async Task Hold_SetsWaitingSheetsAside_AndGoOnBringsThemBack()
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.OrderAsync(["Cyan"]);
        var duty = new DutyDesk(room, room.Rooms, room.Events, room.Clock);
        await Assert.ThrowsAsync<PlateRoomException>(() => duty.HoldAsync(order.Order.Id, " ", "test"));
        Assert.Equal(1, await duty.HoldAsync(order.Order.Id, "proof", "test"));
        var held = (await room.Orders.FindAsync(order.Order.Number))!.Sheets[0];
        Assert.Equal((SheetState.OnHold, "proof"), (held.State, held.HoldReason));
        Assert.False((await room.ScanAsync(held.Number, "frame-1")).Accepted);
        Assert.Equal(1, await duty.GoOnAsync(order.Order.Id, "test"));
        Assert.Equal(SheetState.Waiting, (await room.Orders.FindAsync(order.Order.Number))!.Sheets[0].State);
        await duty.RushAsync(order.Order.Id, rush: true, "test");
        await room.Plans.ReplanAsync();
        Assert.Equal(Ticket.RushWeight, room.Book.Now!.Live.Request.Tickets.Single().Weight);
    }

    [Theory]
    [InlineData(WaitCause.Machine, 3, 0, "waits 1 h 50 min for Frame 1 behind 3 sheets")]
    [InlineData(WaitCause.Machine, 3, 3, "waits 1 h 50 min for Frame 1 behind 3 sheets of another recipe")]
    [InlineData(WaitCause.Changeover, 3, 1, "waits 1 h 50 min for Frame 1 behind 3 sheets, 1 of another recipe, and for its changeover")]
    [InlineData(WaitCause.Downtime, 0, 0, "waits 1 h 50 min for Frame 1, which is down")]
    [InlineData(WaitCause.Unloading, 0, 0, "lies 1 h 50 min in Frame 1 until somebody is there to take it out")]
    public async Task CriticalStage_IsSaidInWords(WaitCause cause, int ahead, int others, string words)
    {
        await using var room = await RoomFixture.CreateAsync();
        var catalog = await room.Rooms.GetAsync();
        Assert.Equal(words, CriticalWords.Say(new CriticalStage(1, 1, 1, catalog.EquipmentBySlug("frame-1")!.Id, TimeSpan.FromMinutes(110), cause, ahead, others), catalog));
    }

    private static PromiseDesk Desk(RoomFixture room) => new(room.Rooms, new StageSpreads(room, room.Rooms, room.Clock), room.Book, room.Clock);
}
