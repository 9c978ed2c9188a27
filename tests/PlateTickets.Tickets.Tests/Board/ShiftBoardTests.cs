using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Tests.Board;

public class ShiftBoardTests
{
    [Fact]
    public async Task Station_CountsWhatWaitsRunsAndIsFinished_AgainstTheGoal()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var view = await ViewAsync(room);
        Assert.Equal(new StationRow(Station.BackExposure, 0, 1, 0, 0, 1, 1), Row(view, Station.BackExposure));
        Assert.Equal("Early shift, until 14:00", view.Head.ShiftText);
        Assert.Equal("3 operators on duty", view.Head.People);

        await room.ScanAsync(sheet, "frame-1");
        view = await ViewAsync(room);
        Assert.Equal((1, 0, 0), (Row(view, Station.BackExposure).Running, Row(view, Station.BackExposure).Waiting, Row(view, Station.BackExposure).Finished));
        room.Clock.Advance(TimeSpan.FromMinutes(10));
        await room.ScanAsync(sheet, "frame-1");
        await room.Plans.ReplanAsync();
        view = await ViewAsync(room);
        Assert.Equal(new StationRow(Station.BackExposure, 0, 0, 0, 1, 1, 1), Row(view, Station.BackExposure));
        Assert.Equal(1, Row(view, Station.Imaging).Waiting);
    }

    [Fact]
    public async Task Goal_StaysWhatItWas_WhenThePlanFallsBehind()
    {
        await using var room = await RoomFixture.CreateAsync();
        await room.OrderAsync(["Cyan"]);
        var before = Row(await ViewAsync(room), Station.BackExposure);
        var frames = (await room.Rooms.GetAsync()).Equipment.Where(e => e.Serves.Contains(Station.BackExposure)).ToList();
        foreach (var frame in frames)
        {
            await room.Duty.SetDownAsync(frame.Id, room.Now, room.Now.AddHours(8), "pump", "Test");
        }

        await room.Plans.ReplanAsync();
        var view = await ViewAsync(room);
        var after = Row(view, Station.BackExposure);
        Assert.Equal((1, 1, 0), (before.Goal, after.Goal, after.Expected));
        Assert.Equal(1, after.Behind);
        Assert.All(frames, f => Assert.Equal((true, "until 16:00: pump"), (view.Machines.Single(m => m.EquipmentId == f.Id).IsDown, view.Machines.Single(m => m.EquipmentId == f.Id).State)));

        // The program starts anew: the goal is read again, not taken again.
        using var fresh = new ShiftBoard(room, room.Board, room.Rooms, room.Book, room.Remedies, room.Goals, room.Clock);
        using var look = fresh.Look(BoardFilter.All);
        await fresh.RefreshAsync();
        Assert.Equal(1, Row(look.View!, Station.BackExposure).Goal);
    }

    [Fact]
    public async Task LateTicket_SaysWhy_AndWhatThePlanSaysWouldHelp()
    {
        await using var room = await RoomFixture.CreateAsync();
        var frames = (await room.Rooms.GetAsync()).Equipment.Where(e => e.Serves.Contains(Station.BackExposure)).ToList();
        var ticket = (await room.OrderAsync(["Cyan"], dueHours: 4)).Order;
        foreach (var frame in frames)
        {
            await room.Duty.SetDownAsync(frame.Id, room.Now, room.Now.AddHours(3), "pump", "Test");
        }

        await room.Plans.ReplanAsync();
        room.Study.Simulate();
        await room.Remedies.LookAsync();
        var row = (await ViewAsync(room)).Urgent.Single();
        Assert.Equal((ticket.Id, Lateness.Late), (row.TicketId, row.Lateness));
        Assert.Contains("which is down", row.Why, StringComparison.Ordinal);
        Assert.StartsWith("Bring Frame", row.Help, StringComparison.Ordinal);
        Assert.EndsWith("in time", row.Help, StringComparison.Ordinal);

        // What was said holds: with the machine back the ticket is in time.
        var machine = room.Remedies.Now[ticket.Id].Best!;
        await room.Duty.SetUpAsync(machine.EquipmentId!.Value, "Test");
        await room.Plans.ReplanAsync();
        Assert.Equal(machine.AfterUtc, (await room.Orders.FindAsync(ticket.Number))!.PlannedDoneUtc);
    }

    [Fact]
    public async Task WhatHelpsNothing_IsNotPromised()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = (await room.OrderAsync(["Cyan"], dueHours: 1)).Order;
        room.Study.Simulate();
        await room.Remedies.LookAsync();
        // Alone in the room and too late for the work itself: neither a rush nor overtime changes anything.
        Assert.Null(room.Remedies.Now[ticket.Id].Best);
        var row = (await ViewAsync(room)).Urgent.Single();
        Assert.Equal("Nothing tried helps (a rush, one more operator, 2 h of overtime): tell the customer", row.Help);

        // What lies in a machine with its run over is taken out first, whatever the plan says.
        await room.ScanAsync((await room.Orders.FindAsync(ticket.Number))!.Sheets[0].Number, "frame-1");
        room.Clock.Advance(TimeSpan.FromMinutes(20));
        Assert.StartsWith("Take it out of Frame 1 now: its run is over since 08:", (await ViewAsync(room)).Urgent.Single().Help, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Rows_StayTheSameObjects_WhileNothingOfThemChanges()
    {
        await using var room = await RoomFixture.CreateAsync(played: true);
        await room.Plans.ReplanAsync();
        var first = await ViewAsync(room, keep: true);
        await room.Shift.RefreshAsync();
        using var same = room.Shift.Look(BoardFilter.All);
        Assert.Same(first, same.View);

        var frame = (await room.Rooms.GetAsync()).EquipmentBySlug("finisher")!;
        await room.Duty.SetDownAsync(frame.Id, room.Now, room.Now.AddHours(2), "lamp", "Test");
        await room.Shift.RefreshAsync();
        var second = same.View!;
        Assert.NotSame(first, second);
        var changed = second.Machines.Where(m => !first.Machines.Contains(m, ReferenceEqualityComparer.Instance)).ToList();
        Assert.Equal(["Finisher"], changed.Select(m => m.Name));
        Assert.True(first.Stations == second.Stations && first.Urgent == second.Urgent);
    }

    [Fact]
    public async Task Filter_ShowsOnlyItsCustomer_AndIsMadeOnceForAllViewers()
    {
        await using var room = await RoomFixture.CreateAsync(played: true);
        await room.Plans.ReplanAsync();
        await room.Board.ReloadAsync();
        await room.Shift.RefreshAsync();
        using var all = room.Shift.Look(BoardFilter.All);
        var customer = all.View!.Choices.Customers[0];
        using var one = room.Shift.Look(new BoardFilter(Customer: customer));
        using var two = room.Shift.Look(new BoardFilter(Customer: customer));
        Assert.Same(one.View, two.View);
        Assert.All(one.View!.Sheets.SelectMany(s => s.Running.Concat(s.Waiting)), s => Assert.Contains(s.Tickets, t => t.Customer == customer));
        Assert.True(one.View.Head.Open < all.View.Head.Open);
        Assert.All(one.View.Stations, s => Assert.Null(s.Goal));
        Assert.Equal(all.View.Choices, one.View.Choices);
    }

    [Fact]
    public async Task Load_IsTheMachinesTimeThatThePlanTakes()
    {
        await using var room = await RoomFixture.CreateAsync();
        await room.OrderAsync(["Cyan"]);
        var view = await ViewAsync(room);
        Assert.Equal("now 09 10 11 12 13 14 15", string.Join(" ", view.Hours));
        var frames = view.Load.Single(l => l.Title == "Back exposure, face exposure");
        Assert.Equal("Frame 1, Frame 2", frames.Machines);
        // By hand: what the plan puts on the two frames between 08:00 and 09:00, of 120 minutes.
        var minutes = room.Book.Now!.Live.Plan.Stages.Where(s => s.EquipmentId <= 2).Sum(s => Math.Max(0, (Min(s.FinishUtc, room.Now.AddHours(1)) - Max(s.StartUtc, room.Now)).TotalMinutes));
        Assert.Equal((int)Math.Round(minutes / 120 * 20, MidpointRounding.AwayFromZero) * 5, frames.Cells[0].Percent);
        Assert.True(frames.Cells[0].Percent > 0);
        Assert.Equal(8, view.Load.Length);
    }

    [Fact]
    public async Task DownMachine_HasNoCapacity_AndNightHoursAreClosed()
    {
        await using var room = await RoomFixture.CreateAsync(hour: 20);
        var finisher = (await room.Rooms.GetAsync()).EquipmentBySlug("finisher")!;
        await room.Duty.SetDownAsync(finisher.Id, room.Now, room.Now.AddHours(1), "", "Test");
        var cells = (await ViewAsync(room)).Load.Single(l => l.Machines == "Finisher").Cells;
        Assert.Equal(new LoadCell(null, false), cells[0]);
        Assert.Equal(new LoadCell(0, false), cells[1]);
        Assert.Equal(new LoadCell(null, true), cells[2]);
    }

    [Fact]
    public async Task OldLampReading_IsDue_ThenOverdue()
    {
        await using var room = await RoomFixture.CreateAsync();
        // The demo's frame 1 was read three days ago, frame 2 more than one; seven days are the limit.
        Assert.Empty((await ViewAsync(room)).Checks);
        room.Clock.Advance(TimeSpan.FromDays(3.5));
        var due = (await ViewAsync(room)).Checks;
        Assert.Equal(["Frame 1: read the back lamps", "Frame 1: read the face lamps"], due.Select(c => c.Text));
        Assert.All(due, c => Assert.StartsWith("due ", c.When, StringComparison.Ordinal));
        room.Clock.Advance(TimeSpan.FromDays(1));
        Assert.All((await ViewAsync(room)).Checks.Take(2), c => Assert.True(c.IsOverdue));
        await new LampReadings(room, room.Rooms, room.Events, room.Clock).AddAsync(1, LampBank.Back, 14.8, "Test");
        Assert.Equal("Frame 1: read the face lamps", (await ViewAsync(room)).Checks.First(c => c.Text.StartsWith("Frame 1", StringComparison.Ordinal)).Text);
    }

    [Fact]
    public async Task Remake_OfToday_IsShown_AndGoneTomorrow()
    {
        await using var room = await RoomFixture.CreateAsync();
        var view = await room.OrderAsync(["Cyan"]);
        await room.PassAsync(view.Sheets[0].Number, "frame-1");
        await room.Remakes.RemakeAsync(new(view.Sheets[0].Number, [], PlateDefect.Scratch, "scratched", null, Station.Imaging), "Test");
        var row = (await ViewAsync(room)).Remakes.Single();
        Assert.Equal((view.Order.Number, "Cyan", "scratch", "found at imaging"), (row.TicketNumber, row.Colour, row.Defect, row.Found));
        room.Clock.Advance(TimeSpan.FromHours(20));
        Assert.Empty((await ViewAsync(room)).Remakes);
    }

    private static async Task<ShiftBoardView> ViewAsync(RoomFixture room, bool keep = false)
    {
        await room.Board.ReloadAsync();
        var look = room.Shift.Look(BoardFilter.All);
        await room.Shift.RefreshAsync();
        var view = look.View!;
        if (!keep)
        {
            look.Dispose();
        }

        return view;
    }

    private static StationRow Row(ShiftBoardView view, Station station) => view.Stations.Single(s => s.Station == station);

    private static DateTime Min(DateTime a, DateTime b) => a < b ? a : b;

    private static DateTime Max(DateTime a, DateTime b) => a > b ? a : b;
}
