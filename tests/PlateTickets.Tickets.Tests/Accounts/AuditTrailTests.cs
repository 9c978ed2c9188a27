using Microsoft.EntityFrameworkCore;

namespace PlateTickets.Tickets.Tests.Accounts;

public class AuditTrailTests
{
    [Fact]
    public async Task Change_IsKeptWithWhoWhenFromAndTo()
    {
        await using var room = await RoomFixture.CreateAsync();
        var number = (await room.OrderAsync(["Cyan"])).Order.Number;
        room.Clock.Advance(TimeSpan.FromMinutes(5));
        await using (var db = room.CreateDbContext())
        {
            db.ActingAs = "Ada";
            db.Clock = room.Clock;
            (await db.Orders.SingleAsync()).Title = "Another title";
            await db.SaveChangesAsync();
        }

        await using var read = room.CreateDbContext();
        var entry = await read.AuditEntries.SingleAsync(a => a.Field == "Title");
        Assert.Equal(("Order", number, "Ada", "Test job", "Another title"), (entry.Record, entry.Key, entry.By, entry.From, entry.To));
        Assert.Equal(room.Now, entry.AtUtc);
        Assert.True(await read.AuditEntries.AnyAsync(a => a.Record == "Order" && a.Key == number && a.Field == "(new)" && a.By == "test"));
    }

    [Fact]
    public async Task TwoPeopleWhoEditOneOrder_TheSecondIsTold()
    {
        await using var room = await RoomFixture.CreateAsync();
        await room.OrderAsync(["Cyan"]);
        await using var first = room.CreateDbContext();
        await using var second = room.CreateDbContext();
        (await first.Orders.SingleAsync()).Title = "First";
        (await second.Orders.SingleAsync()).Title = "Second";
        await first.SaveChangesAsync();
        await Assert.ThrowsAsync<DbUpdateConcurrencyException>(() => second.SaveChangesAsync());
    }
}
