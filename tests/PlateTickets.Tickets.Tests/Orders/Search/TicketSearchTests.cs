using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Search;

namespace PlateTickets.Tickets.Tests.Orders.Search;

public class TicketSearchTests
{
    [Fact]
    public async Task Ticket_IsFoundByEverythingThatItIsCalled_NewestFirst()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = await room.OrderAsync(["Cyan", "Magenta"]);
        var second = await room.OrderAsync(["Cyan", "Leaf Green"]);
        var (one, two) = (first.Order.Id, second.Order.Id);
        var sheet = second.Sheets[0].Number;
        foreach (var (text, expected) in new (string, int[])[]
        {
            ("cyan", [two, one]), ("MAGEN", [one]), ("leaf cyan", [two]), ("magenta leaf", []), ("test cust", [two, one]),
            (second.Order.Number, [two]), (second.Order.Number[..5].ToLowerInvariant(), [two]), ($"{sheet[..4]} {sheet[4..8]} {sheet[8..]}", [two]),
            ("nothing of the kind", []), ("“”", []), ("cyan OR magenta", []), ("NEAR(cyan", []), ("cyan*", [two, one]), ("-cyan", [two, one]), ("Text:cyan", []), ("\"cyan", [two, one]),
        })
        {
            Assert.Equal(expected, await FindAsync(room, new TicketAsk(text)));
        }
    }

    [Fact]
    public async Task DueDays_AreThoseOfTheSite_AndBothEndsCount()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"]);
        var due = DateOnly.FromDateTime(ticket.Order.DueUtc);
        int[] found = [ticket.Order.Id];
        Assert.Equal(found, await FindAsync(room, new TicketAsk("", due, due)));
        Assert.Equal(found, await FindAsync(room, new TicketAsk("cyan", due.AddMonths(-14), due.AddMonths(3))));
        Assert.Equal(found, await FindAsync(room, new TicketAsk("", due)));
        Assert.Equal(found, await FindAsync(room, new TicketAsk("", null, due)));
        Assert.Empty(await FindAsync(room, new TicketAsk("", due.AddDays(1))));
        Assert.Empty(await FindAsync(room, new TicketAsk("", null, due.AddDays(-1))));
        Assert.Empty(await FindAsync(room, new TicketAsk("magenta", due, due)));
        await Assert.ThrowsAsync<PlateRoomException>(() => FindAsync(room, new TicketAsk("", due, due.AddDays(-1))));
        await Assert.ThrowsAsync<PlateRoomException>(() => FindAsync(room, new TicketAsk("", due, due.AddYears(11))));

        await using var db = room.CreateDbContext();
        var order = await db.Orders.SingleAsync(o => o.Id == ticket.Order.Id);
        (order.DueUtc, order.Title) = (order.DueUtc.AddDays(1), "Renamed label");
        await db.SaveChangesAsync();
        Assert.Equal(found, await FindAsync(room, new TicketAsk("renam", due.AddDays(1))));
        Assert.Empty(await FindAsync(room, new TicketAsk("job")));
    }

    [Fact]
    public async Task Lot_IsFoundAsSoonAsItIsKnown_AndPagesGoOn()
    {
        await using var room = await RoomFixture.CreateAsync();
        var tickets = new List<TicketView>();
        for (var i = 0; i < 5; i++)
        {
            tickets.Add(await room.OrderAsync(["Cyan"]));
        }

        await using (var db = room.CreateDbContext())
        {
            (await db.Sheets.SingleAsync(s => s.Id == tickets[1].Sheets[0].Id)).Lot = "LOT-7781/b";
            await db.SaveChangesAsync();
        }

        Assert.Contains(tickets[1].Order.Id, await FindAsync(room, new TicketAsk("lot-7781")));
        var search = new TicketSearch(room);
        var pages = new List<int>();
        int? before = null;
        while (await search.FindAsync(new TicketAsk("cyan"), before, 2) is { Count: > 0 } page)
        {
            pages.AddRange(page);
            before = page[^1];
        }

        Assert.Equal(tickets.Select(t => t.Order.Id).OrderDescending(), pages);
    }

    [Fact]
    public async Task TicketsOfAnEarlierVersion_GetTheirTextOnce()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"]);
        await using var db = room.CreateDbContext();
        await db.Database.ExecuteSqlAsync($"DELETE FROM \"TicketTexts\"");
        Assert.Empty(await FindAsync(room, new TicketAsk("cyan")));
        Assert.Equal(1, await TicketIndex.FillAsync(db));
        Assert.Equal([ticket.Order.Id], await FindAsync(room, new TicketAsk("cyan")));
        Assert.Equal(0, await TicketIndex.FillAsync(db));
    }

    private static Task<List<int>> FindAsync(RoomFixture room, TicketAsk ask) => new TicketSearch(room).FindAsync(ask, null, 50);
}
