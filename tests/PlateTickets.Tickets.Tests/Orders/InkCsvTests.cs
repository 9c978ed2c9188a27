using PlateTickets.Tickets.Orders;

namespace PlateTickets.Tickets.Tests.Orders;

/// <summary>RFC 4180: CRLF, quotes doubled; OWASP's list of cells that a spreadsheet takes for formulas.</summary>
public class InkCsvTests
{
    [Fact]
    public void Line_HasPercentAndArea_AndAFormulaIsGuarded()
    {
        var csv = InkCsv.Write([new InkLine("T1", "Say \"Cheese\", Ltd", "=1+2", new DateTime(2026, 11, 26, 8, 0, 0, DateTimeKind.Utc), "@Cyan", 1, 150_000, 390_104, 0.25, "a.tif")]);
        var lines = csv.Split("\r\n");
        Assert.Equal("ticket,customer,title,entered (UTC),colour,copy,width mm,length mm,coverage %,ink cm2,file", lines[0]);
        // 0.25 x 15.0 cm x 39.0104 cm = 146.289 cm2.
        Assert.Equal("T1,\"Say \"\"Cheese\"\", Ltd\",\"'=1+2\",2026-11-26T08:00:00Z,\"'@Cyan\",1,150,390.104,25,146.29,a.tif", lines[1]);
        Assert.Equal(["", "3"], [lines[2], $"{lines.Length}"]);
    }

    [Fact]
    public void UnknownCoverage_IsEmpty() =>
        Assert.Contains(",100,200,,,", InkCsv.Write([new InkLine("T1", "C", "J", default, "Cyan", 1, 100_000, 200_000, null, "a.tif")]), StringComparison.Ordinal);

    [Fact]
    public async Task PlatesOfATime_AndOfOneTicket()
    {
        await using var room = await RoomFixture.CreateAsync(played: true);
        var all = await room.Orders.InkAsync(room.Now.AddDays(-5), room.Now.AddDays(1), null, 1000);
        Assert.NotEmpty(all);
        Assert.All(all, l => Assert.InRange(l.Coverage!.Value, 0.001, 1));
        var one = await room.Orders.InkAsync(default, default, all[0].Ticket, 1000);
        Assert.Equal(all.Where(l => l.Ticket == all[0].Ticket), one);
    }
}
