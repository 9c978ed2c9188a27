using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Orders;

public class OrderCopiesTests
{
    [Fact]
    public async Task MoreCopies_GoOntoSheetsAtOnce_InTheDirectionOfTheSet()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Magenta"]);
        await room.PassAsync(ticket.Sheets[0].Number, "frame-1");
        var desk = Desk(room);
        var effect = await desk.EffectAsync(ticket.Order.Number, 3);
        Assert.Equal((4, 0), (effect.Added, effect.Removed));
        Assert.NotEmpty(effect.NewSheets);
        Assert.Equal(2, (await room.Orders.FindAsync(ticket.Order.Number))!.Plates.Count());

        var made = await desk.SetAsync(ticket.Order.Number, 3, ticket.Order.Version, "Ada");
        Assert.Equal(effect.NewSheets.Count, made.Count);
        var after = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal((3, TicketState.InWork, 6, 0), (after.Order.Copies, after.Ticket.State, after.Plates.Count(), after.Unlaid));
        Assert.Equal(["1 Cyan", "1 Magenta", "2 Cyan", "2 Magenta", "3 Cyan", "3 Magenta"], after.Plates.Select(p => $"{p.Copy} {after.Ticket.Separations.Single(s => s.Id == p.SeparationId).Colour}").Order());
        Assert.Single(after.Sheets.SelectMany(s => s.Placements).Select(p => p.Rotated).Distinct());
        await using var db = room.CreateDbContext();
        Assert.Contains(db.AuditEntries, e => e.By == "Ada" && e.Field == nameof(Order.Copies) && e.From == "1" && e.To == "3");
    }

    [Fact]
    public async Task FewerCopies_AreTakenFromWhereLeastIsLost_AndTheirSheetGoesBackToStock()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"], acrossMm: 800, aroundMm: 1000, copies: 3);
        Assert.Equal(3, ticket.Sheets.Count);
        await room.PassAsync(ticket.Sheets[2].Number, "frame-1");
        var lots = await LotsAsync(room);
        var desk = Desk(room);
        var effect = await desk.EffectAsync(ticket.Order.Number, 1);
        Assert.Equal((0, 2), (effect.Added, effect.Removed));
        Assert.Equal([ticket.Sheets[0].Number, ticket.Sheets[1].Number], effect.Sheets.PutBack.Order().OrderBy(n => ticket.Sheets.ToList().FindIndex(s => s.Number == n)));
        Assert.Empty(await desk.SetAsync(ticket.Order.Number, 1, ticket.Order.Version, "Ada"));

        var after = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal([ticket.Sheets[2].Number], after.Sheets.Select(s => s.Number));
        Assert.Equal(lots + 2, await LotsAsync(room));
        Assert.Equal(ScanOutcome.AlreadyFinished, (await room.ScanAsync(ticket.Sheets[0].Number, "frame-1")).Outcome);
        await room.Plans.ReplanAsync();
        Assert.Equal([ticket.Sheets[2].Id], room.Book.Now!.Live.Request.Sheets.Select(s => s.Id));
    }

    [Fact]
    public async Task FewerCopies_OnASheetThatIsStillWanted_AreWasteThere_AndCountNowhere()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"], copies: 2);
        var sheet = Assert.Single(ticket.Sheets);
        var desk = Desk(room);
        Assert.Equal([sheet.Number], (await desk.EffectAsync(ticket.Order.Number, 1)).Sheets.GoOn);
        await desk.SetAsync(ticket.Order.Number, 1, ticket.Order.Version, "Ada");
        var after = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal((1, SheetState.Waiting, TicketState.Ready), (after.Plates.Count(), after.Sheets.Single().State, after.Ticket.State));
        Assert.Equal(1, after.Ticket.Plates.Count(p => p.OutOfSet));
    }

    [Fact]
    public async Task TheLastOpenSheetIsNotWanted_TheTicketIsDone()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"], acrossMm: 800, aroundMm: 1000, copies: 2);
        foreach (var (_, machine) in RoomFixture.SolventRoute)
        {
            await room.PassAsync(ticket.Sheets[0].Number, machine);
        }

        await Desk(room).SetAsync(ticket.Order.Number, 1, ticket.Order.Version, "Ada");
        var after = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal((TicketState.Done, after.Sheets.Single().DoneUtc), (after.Ticket.State, after.Ticket.DoneUtc));
        var closed = await Assert.ThrowsAsync<PlateRoomException>(() => Desk(room).SetAsync(ticket.Order.Number, 2, after.Order.Version, "Ada"));
        Assert.Contains("is done", closed.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NotWantedSheetInAMachine_ComesOutOfItAsWaste()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"], acrossMm: 800, aroundMm: 1000, copies: 2);
        await room.PassAsync(ticket.Sheets[0].Number, "frame-1");
        await room.ScanAsync(ticket.Sheets[1].Number, "frame-1");
        await using (var db = room.CreateDbContext())
        {
            // Both are begun: the newer one goes.
            Assert.Equal([ticket.Sheets[1].Number], (await Desk(room).EffectAsync(ticket.Order.Number, 1)).Sheets.GivenUp);
        }

        await Desk(room).SetAsync(ticket.Order.Number, 1, ticket.Order.Version, "Ada");
        room.Clock.Advance(TimeSpan.FromHours(1));
        var reply = await room.ScanAsync(ticket.Sheets[1].Number, "frame-1");
        Assert.Contains("Its plates are not wanted any more: put it with the waste", reply.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WrongNumber_OtherPerson_OrTooMany_ChangesNothing()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Magenta", "Yellow", "Black", "Green", "Orange", "Violet", "White", "Gold"]);
        var desk = Desk(room);
        Assert.Contains("Copies must be 1 to 50", (await Assert.ThrowsAsync<PlateRoomException>(() => desk.EffectAsync(ticket.Order.Number, 0))).Message, StringComparison.Ordinal);
        Assert.Contains("450 plates are more than a ticket may have", (await Assert.ThrowsAsync<PlateRoomException>(() => desk.SetAsync(ticket.Order.Number, 50, ticket.Order.Version, "Ada"))).Message, StringComparison.Ordinal);
        Assert.Contains("Somebody else changed this order", (await Assert.ThrowsAsync<PlateRoomException>(() => desk.SetAsync(ticket.Order.Number, 2, ticket.Order.Version - 1, "Ada"))).Message, StringComparison.Ordinal);
        Assert.Equal(9, (await room.Orders.FindAsync(ticket.Order.Number))!.Plates.Count());
    }

    [Fact]
    public async Task WithoutSeparations_OnlyTheNumberChanges()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderWaitingAsync([]);
        var effect = await Desk(room).EffectAsync(ticket.Order.Number, 2);
        Assert.Equal((0, 0), (effect.Added, effect.Removed));
        await Desk(room).SetAsync(ticket.Order.Number, 2, ticket.Order.Version, "Ada");
        var after = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal((2, TicketState.WaitingForFiles), (after.Order.Copies, after.Ticket.State));
    }

    private static async Task<int> LotsAsync(RoomFixture room)
    {
        await using var db = room.CreateDbContext();
        return db.StockLots.Sum(l => l.Sheets);
    }

    private static OrderCopies Desk(RoomFixture room) => new(room, room.Rooms, room.Layouts, room.Events);
}
