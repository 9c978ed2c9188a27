namespace PlateTickets.Tickets.Tests.Orders;

public class EarlierJobTests
{
    [Fact]
    public async Task SameFileAgain_NamesTheNewestTicketsThatHadIt()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = await room.OrderAsync(["Cyan", "Magenta"], copies: 2);
        room.Clock.Advance(TimeSpan.FromMinutes(5));
        var second = await room.OrderAsync(["Cyan"]);
        var (cyan, magenta) = (RoomFixture.Read("Cyan").Sha256, RoomFixture.Read("Magenta").Sha256);
        var earlier = await room.Orders.EarlierAsync([cyan, magenta]);
        Assert.Equal([(second.Order.Number, 1), (first.Order.Number, 2)], earlier.Select(e => (e.Number, e.SameFiles)));
        Assert.Equal(("Test Customer", "Test job", 2), (earlier[1].Customer, earlier[1].Title, earlier[1].Copies));
        Assert.Empty(await room.Orders.EarlierAsync([new string('0', 64)]));
        Assert.Empty(await room.Orders.EarlierAsync([]));
    }
}
