using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Orders;

public class OrderChangesTests
{
    [Fact]
    public async Task DueTime_IsChangedOnce_AndTheSecondPersonIsTold()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"]);
        var desk = Desk(room);
        var later = ticket.Order.DueUtc.AddDays(2);
        await desk.SetDueAsync(ticket.Order.Number, later, ticket.Order.Version, "Ada");
        Assert.Equal(later, (await room.Orders.FindAsync(ticket.Order.Number))!.Order.DueUtc);
        var second = await Assert.ThrowsAsync<PlateRoomException>(() => desk.SetDueAsync(ticket.Order.Number, later.AddDays(1), ticket.Order.Version, "Bruno"));
        Assert.Contains("Somebody else changed this order", second.Message, StringComparison.Ordinal);
        var past = await Assert.ThrowsAsync<PlateRoomException>(() => desk.SetDueAsync(ticket.Order.Number, room.Clock.GetUtcNow().UtcDateTime.AddHours(-1), 1, "Ada"));
        Assert.Contains("is in the past", past.Message, StringComparison.Ordinal);
        await using var db = room.CreateDbContext();
        Assert.Contains(await db.AuditEntries.ToListAsync(), e => e is { By: "Ada", Field: nameof(Order.DueUtc) } && e.Key == ticket.Order.Number);
    }

    [Fact]
    public async Task Cancelled_ItsSheetsGoBackToStock_OrAreGivenUp_AndNothingCanBeScannedAnyMore()
    {
        await using var room = await RoomFixture.CreateAsync();
        var desk = Desk(room);
        var fresh = await room.OrderAsync(["Cyan"]);
        var begun = await room.OrderAsync(["Magenta"]);
        var other = await room.OrderAsync(["Yellow"]);
        await room.PassAsync(begun.Sheets[0].Number, "frame-1");

        await Assert.ThrowsAsync<PlateRoomException>(() => desk.CancelAsync(fresh.Order.Number, " ", "Ada"));
        Assert.Equal([fresh.Sheets[0].Number], (await desk.EffectAsync(fresh.Order.Number)).PutBack);
        await desk.CancelAsync(fresh.Order.Number, "the customer stopped it", "Ada");
        Assert.Equal([begun.Sheets[0].Number], (await desk.CancelAsync(begun.Order.Number, "wrong art", "Ada")).GivenUp);

        foreach (var ticket in new[] { fresh, begun })
        {
            var after = (await room.Orders.FindAsync(ticket.Order.Number))!;
            Assert.Equal((TicketState.Cancelled, SheetState.Cancelled), (after.Ticket.State, after.Sheets[0].State));
            var reply = await room.ScanAsync(ticket.Sheets[0].Number, "frame-1");
            Assert.Equal(ScanOutcome.AlreadyFinished, reply.Outcome);
            Assert.Contains("is cancelled already", reply.Sentence, StringComparison.Ordinal);
        }

        await room.Plans.ReplanAsync();
        Assert.Equal([other.Order.Id], room.Book.Now!.Live.Request.Tickets.Select(t => t.Id));
        var again = await Assert.ThrowsAsync<PlateRoomException>(() => desk.CancelAsync(fresh.Order.Number, "again", "Ada"));
        Assert.Contains("is cancelled already", again.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SheetInAMachine_ComesOutOfIt_AndIsWasteThen()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"]);
        var sheet = ticket.Sheets[0].Number;
        await room.ScanAsync(sheet, "frame-1");
        await Desk(room).CancelAsync(ticket.Order.Number, "the customer stopped it", "Ada");
        Assert.Equal(SheetState.OnHold, (await room.Orders.FindAsync(ticket.Order.Number))!.Sheets[0].State);
        room.Clock.Advance(TimeSpan.FromHours(1));
        var reply = await room.ScanAsync(sheet, "frame-1");
        Assert.Contains("Its order was cancelled: put it with the waste", reply.Sentence, StringComparison.Ordinal);
        Assert.Equal(SheetState.Cancelled, (await room.Orders.FindAsync(ticket.Order.Number))!.Sheets[0].State);
    }

    [Fact]
    public async Task SharedSheet_GoesOnForTheOtherTicket_AndTheCancelledOneDrivesNothingAnyMore()
    {
        await using var room = await RoomFixture.CreateAsync();
        var urgent = await room.OrderWaitingAsync(["Cyan"], dueHours: 10);
        var calm = await room.OrderWaitingAsync(["Black"], dueHours: 40);
        var material = urgent.Order.MaterialId;
        var shelf = await room.Layouts.ShelfAsync(material, 2);
        var nest = LayoutProposal.Make(await room.Rooms.GetAsync(), shelf, await room.Layouts.WaitingAsync(material), new(default, null));
        var shared = Assert.Single(await room.Layouts.ReleaseAsync(material, nest.Sheets, shelf, "test"));
        Assert.Equal(urgent.Order.DueUtc, (await room.Sheets.FindAsync(shared))!.DueUtc);
        Assert.Equal([shared], (await Desk(room).CancelAsync(urgent.Order.Number, "the customer stopped it", "Ada")).GoOn);

        var after = (await room.Sheets.FindAsync(shared))!;
        Assert.Equal((SheetState.Waiting, calm.Order.DueUtc), (after.Sheet.State, after.DueUtc));
        await room.Plans.ReplanAsync();
        Assert.Equal([calm.Order.Id], room.Book.Now!.Live.Request.Tickets.Select(t => t.Id));
        await room.Board.ReloadAsync();
        Assert.Equal([calm.Order.Number], room.Board.Now.Sheets[after.Sheet.Id].Tickets.Select(t => t.Number));
    }

    [Fact]
    public async Task OrderedAgain_HasTheSameSeparations_OtherCopiesAndItsOwnSheets()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = await room.OrderAsync(["Cyan", "Magenta"]);
        var due = room.Clock.GetUtcNow().UtcDateTime.AddDays(2);
        var again = (await room.Orders.FindAsync(await room.Entry.RepeatAsync(first.Order.Number, due, 2, "Ada")))!;
        Assert.NotEqual(first.Order.Number, again.Order.Number);
        Assert.Equal(
            (first.Order.Title, first.Order.PressId, first.Order.RepeatUm, first.Order.MaterialId, due, 4),
            (again.Order.Title, again.Order.PressId, again.Order.RepeatUm, again.Order.MaterialId, again.Order.DueUtc, again.Plates.Count()));
        Assert.Equal(first.Ticket.Separations.Select(s => (s.Colour, s.Sha256, s.WidthUm, s.LengthUm)), again.Ticket.Separations.Select(s => (s.Colour, s.Sha256, s.WidthUm, s.LengthUm)));
        Assert.Equal(TicketState.Ready, again.Ticket.State);
        Assert.NotEmpty(again.Sheets);
        var many = await Assert.ThrowsAsync<OrderRefusedException>(() => room.Entry.RepeatAsync(first.Order.Number, due, 51, "Ada"));
        Assert.Contains("Copies must be 1 to 50", many.Message, StringComparison.Ordinal);
        var waiting = await room.OrderWaitingAsync([]);
        var none = await Assert.ThrowsAsync<PlateRoomException>(() => room.Entry.RepeatAsync(waiting.Order.Number, due, 1, "Ada"));
        Assert.Contains("has no separations", none.Message, StringComparison.Ordinal);
    }

    private static OrderChanges Desk(RoomFixture room) => new(room, room.Rooms, room.Events, room.Clock);
}
