using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Sheets.Layouts;

public sealed class LayoutDeskTests
{
    private static readonly LayoutWishes Usual = new(CopyRule.Any, null);

    [Fact]
    public async Task Waiting_HoldsThePlatesOfTicketsThatAreLaidOutTogether()
    {
        await using var room = await RoomFixture.CreateAsync();
        var one = await room.OrderWaitingAsync(["Cyan", "Black"], dueHours: 40);
        var two = await room.OrderWaitingAsync(["White"], dueHours: 30);
        await room.OrderAsync(["Magenta"]);
        Assert.Equal(TicketState.WaitingForLayout, one.Ticket.State);
        var waiting = await room.Layouts.WaitingAsync(one.Order.MaterialId);
        Assert.Equal(["White", "Cyan", "Black"], waiting.Select(w => w.Colour));
        Assert.Equal([two.Order.Number, one.Order.Number, one.Order.Number], waiting.Select(w => w.TicketNumber));
        var material = Assert.Single(await room.Layouts.MaterialsAsync());
        Assert.Equal((3, 2, two.Order.DueUtc), (material.Plates, material.Tickets, material.FirstDueUtc));
    }

    [Fact]
    public async Task Release_PutsTwoTicketsOnOneSheet_AndTakesItFromItsLot()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (one, two, layout) = await ReleaseTwoAsync(room);
        var sheet = await room.Sheets.FindAsync(Assert.Single(layout.SheetNumbers));
        Assert.Equal([one, two], sheet!.Orders.Select(o => o.Number).Order());
        Assert.Equal("L-2341", sheet.Sheet.Lot);
        await using var db = room.CreateDbContext();
        Assert.Equal(29, await db.StockLots.Where(l => l.Lot == "L-2341").Select(l => l.Sheets).SingleAsync());
        Assert.All(await db.Tickets.ToListAsync(), t => Assert.Equal(TicketState.Ready, t.State));
        Assert.Empty(await room.Layouts.MaterialsAsync());
        await room.Plans.ReplanAsync();
        Assert.Equal(2, room.Book.Now!.Live.Request.Tickets.Count);
    }

    [Fact]
    public async Task Release_CutsTheRemnantOff_AndTheSheetKeepsItsRims()
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.OrderWaitingAsync(["Cyan"], acrossMm: 500, aroundMm: 390.104);
        await ReleaseAsync(room, order.Order.MaterialId);
        await using var db = room.CreateDbContext();
        var sheet = await db.Sheets.SingleAsync();
        var remnant = await db.Remnants.SingleAsync();
        // On 600 x 900 mm, across: 15 mm clamp rim, 500 mm plate, 15 mm rim; the rest of 370 mm is kept.
        Assert.Equal((600_000, 530_000, 600_000, 900_000), (sheet.WidthUm, sheet.LengthUm, sheet.FromWidthUm, sheet.FromLengthUm));
        Assert.Equal((600_000, 370_000, sheet.Lot, sheet.Id), (remnant.WidthUm, remnant.LengthUm, remnant.Lot, remnant.FromSheetId));
        var next = await room.OrderWaitingAsync(["Black"], acrossMm: 500, aroundMm: 320);
        await ReleaseAsync(room, next.Order.MaterialId);
        var second = await db.Sheets.OrderBy(s => s.Id).LastAsync();
        Assert.Equal(remnant.Mark, second.RemnantMark);
        Assert.Equal(second.Id, await db.Remnants.Where(r => r.Id == remnant.Id).Select(r => r.TakenBySheetId).SingleAsync());
    }

    [Fact]
    public async Task Undo_BeforeTheFirstScan_PutsEverythingBack()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (_, _, layout) = await ReleaseTwoAsync(room);
        await room.Layouts.UndoAsync(layout.Id, "Lead");
        await using var db = room.CreateDbContext();
        Assert.Equal(30, await db.StockLots.Where(l => l.Lot == "L-2341").Select(l => l.Sheets).SingleAsync());
        Assert.All(await db.Remnants.ToListAsync(), r => Assert.False(r.IsThere));
        Assert.Equal(SheetState.Cancelled, await db.Sheets.Select(s => s.State).SingleAsync());
        Assert.All(await db.Tickets.ToListAsync(), t => Assert.Equal(TicketState.WaitingForLayout, t.State));
        var material = Assert.Single(await room.Layouts.MaterialsAsync());
        Assert.Equal(2, material.Plates);
        Assert.False(Assert.Single(await room.Layouts.LatelyAsync(material.MaterialId)).CanBeUndone);
        // The plates can be laid out again.
        Assert.Single(await ReleaseAsync(room, material.MaterialId));
    }

    [Fact]
    public async Task Undo_AfterAScan_IsRefused()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (_, _, layout) = await ReleaseTwoAsync(room);
        await room.Plans.ReplanAsync();
        var number = layout.SheetNumbers[0];
        Assert.True((await room.Desk.RecordAsync(new ScanRequest(Guid.NewGuid(), number, "frame-1", ScanAction.Start, "test"))).Accepted);
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => room.Layouts.UndoAsync(layout.Id, "Lead"));
        Assert.Contains("has been scanned", refused.Message, StringComparison.Ordinal);
        Assert.True(Assert.Single(await room.Layouts.LatelyAsync(layout.MaterialId)).Scanned);
    }

    [Fact]
    public async Task Release_OfAPlateThatHasASheetByNow_IsRefusedAndTakesNothing()
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.OrderWaitingAsync(["Cyan"]);
        var (shelf, result) = await ProposeAsync(room, order.Order.MaterialId);
        await room.Layouts.ReleaseAsync(order.Order.MaterialId, result.Sheets, shelf, "one");
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => room.Layouts.ReleaseAsync(order.Order.MaterialId, result.Sheets, shelf, "two"));
        Assert.Contains("have a sheet by now", refused.Message, StringComparison.Ordinal);
        await using var db = room.CreateDbContext();
        Assert.Equal(1, await db.Sheets.CountAsync());
    }

    [Fact]
    public async Task Release_OfOverlappingPlates_IsRefused()
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.OrderWaitingAsync(["Cyan", "Black"]);
        var (shelf, result) = await ProposeAsync(room, order.Order.MaterialId);
        var sheet = result.Sheets[0];
        var same = sheet with { Plates = [.. sheet.Plates.Select(p => p with { X = sheet.Plates[0].X, Y = sheet.Plates[0].Y })] };
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => room.Layouts.ReleaseAsync(order.Order.MaterialId, [same], shelf, "test"));
        Assert.Contains("overlap", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Release_OfASetInBothDirections_IsRefused()
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.OrderWaitingAsync(["Cyan", "Black"]);
        var (shelf, _) = await ProposeAsync(room, order.Order.MaterialId);
        var waiting = await room.Layouts.WaitingAsync(order.Order.MaterialId);
        var stock = shelf.Stocks[0];
        var sheet = new NestSheet(stock.Id, stock.Width, stock.Length,
        [
            new(waiting[0].PlateId, 10_000, 15_000, waiting[0].WidthUm, waiting[0].LengthUm, false),
            new(waiting[1].PlateId, 10_000, 500_000, waiting[1].LengthUm, waiting[1].WidthUm, true),
        ]);
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => room.Layouts.ReleaseAsync(order.Order.MaterialId, [sheet], shelf, "test"));
        Assert.Contains("partly along and partly across", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TicketWithAPlateLeftOver_IsNotDoneBeforeThatPlate()
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.OrderWaitingAsync(["Cyan", "Black"]);
        var (shelf, result) = await ProposeAsync(room, order.Order.MaterialId);
        var one = result.Sheets[0] with { Plates = [.. result.Sheets[0].Plates.Take(1)] };
        await room.Layouts.ReleaseAsync(order.Order.MaterialId, [one], shelf, "test");
        var after = (await room.Orders.FindAsync(order.Order.Number))!;
        Assert.Equal(TicketState.WaitingForLayout, after.Ticket.State);
        Assert.Single(await room.Layouts.WaitingAsync(order.Order.MaterialId));
    }

    [Fact]
    public async Task Order_WithoutASheetLeft_KeepsItsPlatesWaiting()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        await db.StockLots.ExecuteUpdateAsync(u => u.SetProperty(l => l.Sheets, 0));
        var order = await room.OrderAsync(["Cyan", "Black"]);
        Assert.Equal(TicketState.WaitingForLayout, order.Ticket.State);
        Assert.Empty(order.Sheets);
    }

    [Fact]
    public async Task SheetsOfALayout_AreReadAtOnce_AndAreWhatEachIsAlone()
    {
        await using var room = await RoomFixture.CreateAsync();
        var statements = new List<int>();
        foreach (var colours in (string[][])[["Cyan"], ["Cyan", "Magenta", "Yellow", "Black"]])
        {
            var order = await room.OrderWaitingAsync(colours, acrossMm: 590);
            var numbers = await ReleaseAsync(room, order.Order.MaterialId);
            var layout = (await room.Layouts.LatelyAsync(order.Order.MaterialId)).MaxBy(l => l.Id)!;
            var before = room.Watch.Seen.Count;
            room.Watch.Start();
            var views = await room.Sheets.OfLayoutAsync(layout.Id);
            room.Watch.Stop();
            statements.Add(room.Watch.Seen.Count - before);
            Assert.Equal(numbers.Order(), views.Select(v => v.Sheet.Number).Order());
            Assert.Equal(views.Select(v => v.Sheet.Id).Order(), views.Select(v => v.Sheet.Id));
            foreach (var view in views)
            {
                var alone = (await room.Sheets.FindAsync(view.Sheet.Number))!;
                Assert.Equal(alone.Sheet.Stages.Select(t => t.Id), view.Sheet.Stages.Select(t => t.Id));
                Assert.Equal(alone.Orders.Select(o => o.Id), view.Orders.Select(o => o.Id));
                Assert.Equal(alone.SetPosition.Single(), view.SetPosition.Single());
                Assert.Equal(alone.CutOff?.Mark, view.CutOff?.Mark);
            }

            Assert.Equal(Enumerable.Range(1, views.Count).Select(i => (i, views.Count)), views.Select(v => v.SetPosition.Single().Value));
        }

        Assert.Equal(statements[0], statements[1]);
    }

    private static async Task<(string One, string Two, ReleasedLayout Layout)> ReleaseTwoAsync(RoomFixture room)
    {
        var one = await room.OrderWaitingAsync(["Cyan"], acrossMm: 400);
        var two = await room.OrderWaitingAsync(["Black"], acrossMm: 400);
        await ReleaseAsync(room, one.Order.MaterialId);
        return (one.Order.Number, two.Order.Number, Assert.Single(await room.Layouts.LatelyAsync(one.Order.MaterialId)));
    }

    private static async Task<(PlateTickets.Tickets.Stock.Shelf Shelf, NestResult Result)> ProposeAsync(RoomFixture room, int materialId)
    {
        var waiting = await room.Layouts.WaitingAsync(materialId);
        var shelf = await room.Layouts.ShelfAsync(materialId, waiting.Count);
        return (shelf, LayoutProposal.Make(await room.Rooms.GetAsync(), shelf, waiting, Usual));
    }

    private static async Task<IReadOnlyList<string>> ReleaseAsync(RoomFixture room, int materialId)
    {
        var (shelf, result) = await ProposeAsync(room, materialId);
        return await room.Layouts.ReleaseAsync(materialId, result.Sheets, shelf, "Lead");
    }
}
