using System.Text;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Lists;

namespace PlateTickets.Tickets.Tests.Orders.Lists;

public class OrderImportTests
{
    private const string Head = "customer,title,press,cylinder,repeat mm,material,due,copies\r\n";

    [Fact]
    public async Task GoodList_BecomesOrders_InItsOrder_WithOneNewCustomer()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (press, cylinder) = await PressAsync(room);
        var import = Import(room);
        var view = await import.LookAsync(Head + $"Fern,\"Tea, green\",{press},{cylinder},,,2026-11-27 14:00,2\r\nFern,Tea black,{press.ToUpperInvariant()},,571.5,,2026-11-28T09:30+01:00,\r\n", new());
        Assert.True(view.IsGood, string.Join("; ", view.Troubles));
        Assert.All(view.Rows, r => Assert.True(r.NewCustomer));
        var numbers = await import.EnterAsync(view, "Ada");
        await using var db = room.CreateDbContext();
        var orders = await db.Orders.Include(o => o.Customer).Include(o => o.Ticket).Where(o => numbers.Contains(o.Number)).OrderBy(o => o.Id).ToListAsync();
        Assert.Equal(numbers, orders.Select(o => o.Number));
        Assert.Equal([("Tea, green", 2, new DateTime(2026, 11, 27, 14, 0, 0)), ("Tea black", 1, new DateTime(2026, 11, 28, 8, 30, 0))], orders.Select(o => (o.Title, o.Copies, o.DueUtc)));
        Assert.Equal(571_500, orders[1].RepeatUm);
        Assert.Single(orders.Select(o => o.CustomerId).Distinct());
        Assert.All(orders, o => Assert.Equal((TicketState.WaitingForFiles, "Ada"), (o.Ticket!.State, o.EnteredBy)));
    }

    [Fact]
    public async Task EveryMistake_IsNamedByLineAndColumn_AndNothingIsEntered()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (press, cylinder) = await PressAsync(room);
        var import = Import(room);
        var text = Head
            + $"Fern,\"Two\r\nlines\",{press},{cylinder},,,2026-11-27 14:00,1\r\n"
            + $"Fern,No day,{press},{cylinder},,,tomorrow,1\r\n"
            + $",No customer,{press},{cylinder},,,2026-11-27,one\r\n"
            + $"Fern,No press,Old Bess,,,,2026-11-27 14:00,1\r\n"
            + $"Fern,Comma,{press},,\"571,5\",,2026-11-27 14:00,1\r\n"
            + $"Fern,Past,{press},,,Clay,2025-11-27 14:00,99\r\n"
            + $"Fern,Short,{press}\r\n"
            + $"Fern,Both,{press},{cylinder},571.5,,2026-11-27 14:00,1\r\n";
        var view = await import.LookAsync(text, new());
        Assert.Equal(
            [
                "line 4, due: “tomorrow” is not a day and time such as 2026-11-27 14:00.",
                "line 5, due: “2026-11-27” has no time of day: type it after the day, such as 2026-11-27 14:00.",
                "line 5, copies: “one” is not a whole number such as 2.",
                "line 5, customer: The customer is missing.",
                "line 6, press: There is no press “Old Bess”",
                "line 7, repeat mm: “571,5” is not a number of mm such as 571.5, without a sign between thousands.",
                "line 8, material: There is no material “Clay”",
                "line 9: It has 3 cells, the first line 8: does a text hold the separator without quotation marks around it?",
                "line 10, repeat mm: Cylinder and repeat are both given: leave one of them out.",
            ],
            view.Troubles.Select(t => $"{t.Key}: {t.Value}".Split(". Presses:")[0].Split(". Materials:")[0]));
        Assert.NotNull(view.Rows[0].Order);
        await Assert.ThrowsAsync<OrderRefusedException>(() => import.EnterAsync(view, "Ada"));
        await using var db = room.CreateDbContext();
        Assert.Equal(0, await db.Orders.CountAsync());
        Assert.False(await db.Customers.AnyAsync(c => c.Name == "Fern"));
    }

    [Theory]
    [InlineData("", "The file is empty.")]
    [InlineData("customer,title\r\nFern,Tea\r\n", "“press”, “due” are missing. Are the cells parted by another sign than “,”?")]
    [InlineData("customer,title,press,due,title\r\n", "The column “title” is there twice.")]
    [InlineData(Head, "There is no order below the names of the columns.")]
    public async Task NoList_IsRefusedAsAWhole(string text, string sentence)
    {
        await using var room = await RoomFixture.CreateAsync();
        var view = await Import(room).LookAsync(text, new());
        Assert.EndsWith(sentence, view.Refusal!.Sentence, StringComparison.Ordinal);
        Assert.False(view.IsGood);
    }

    [Fact]
    public async Task SemicolonsDecimalCommaAndDayFirst_ByChoice()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (press, _) = await PressAsync(room);
        var text = $"Customer;Title;PRESS;repeat mm;due\nFern;Tea;{press};571,5;27.11.2026 14:00\n";
        var proposed = ListReading.Propose(text);
        Assert.Equal((';', true, DayOrder.YearFirst), (proposed.Separator, proposed.DecimalComma, proposed.Days));
        Assert.Equal(["line 2, due"], (await Import(room).LookAsync(text, proposed)).Troubles.Keys);
        var view = await Import(room).LookAsync(text, proposed with { Days = DayOrder.DayFirst });
        Assert.Equal((571.5, new DateTime(2026, 11, 27, 14, 0, 0)), (view.Rows.Single().Order!.RepeatMm, view.Rows.Single().Order!.DueUtc));
        var other = await Import(room).LookAsync(text.Replace("27.11.2026 14:00", "11/27/2026 2:00 PM", StringComparison.Ordinal), proposed with { Days = DayOrder.MonthFirst });
        Assert.Equal(new DateTime(2026, 11, 27, 14, 0, 0), other.Rows.Single().Order!.DueUtc);
    }

    [Fact]
    public async Task QuotationMarkThatIsNeverClosed_IsFoundWhereItBegins()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (press, cylinder) = await PressAsync(room);
        var view = await Import(room).LookAsync(Head + $"Fern,Tea,{press},{cylinder},,,2026-11-27 14:00,1\r\nFern,\"Tea,{press},{cylinder},,,2026-11-27 14:00,1\r\nFern,Tea,{press},{cylinder},,,2026-11-27 14:00,1\r\n", new());
        Assert.Contains("line 3", view.Troubles.Keys);
        Assert.Contains("never ends", view.Troubles["line 3"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task WhatIsThereAlready_OrTwiceInTheList_IsPointedOut()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (press, cylinder) = await PressAsync(room);
        var import = Import(room);
        var text = Head + $"Fern,Tea,{press},{cylinder},,,2026-11-27 14:00,1\r\nFern,Tea,{press},{cylinder},,,2026-11-27 14:00,1\r\n";
        var first = await import.LookAsync(text, new());
        Assert.Equal([null, "line 2"], first.Rows.Select(r => r.Twin));
        var numbers = await import.EnterAsync(first, "Ada");
        var again = await import.LookAsync(text, new());
        Assert.Equal(2, again.Twins);
        Assert.Equal($"order {PlateTickets.Tickets.Sheets.TrackingNumber.ForPeople(numbers[0])}", again.Rows[0].Twin);
    }

    [Fact]
    public async Task WhatTheProgramWrites_ItReads()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"]);
        await using (var db = room.CreateDbContext())
        {
            (await db.Customers.FindAsync(ticket.Order.CustomerId))!.Name = "=SUM(A1), \"Fern\"";
            await db.SaveChangesAsync();
        }

        var zone = (await room.Rooms.GetAsync()).Zone;
        var csv = OrderCsv.Write((await room.Orders.ListAsync(false, 0, 10)).Lines, zone);
        Assert.Contains("\"'=SUM(A1), \"\"Fern\"\"\"", csv, StringComparison.Ordinal);
        var view = await Import(room).LookAsync(csv, new());
        Assert.True(view.IsGood, string.Join("; ", view.Troubles));
        var row = Assert.Single(view.Rows);
        Assert.Equal(
            (ticket.Order.CustomerId, ticket.Order.Title, ticket.Order.PressId, ticket.Order.RepeatUm / 1000.0, ticket.Order.MaterialId, ticket.Order.DueUtc, ticket.Order.Copies),
            (row.Order!.CustomerId, row.Order.Title, row.Order.PressId, row.Order.RepeatMm, row.Order.MaterialId, row.Order.DueUtc, row.Order.Copies));
        Assert.NotNull(row.Twin);
        Assert.Contains("ticket", view.Unread);

        var example = await Import(room).LookAsync(OrderCsv.Example(await room.Rooms.GetAsync(), room.Now), new());
        Assert.True(example.IsGood, string.Join("; ", example.Troubles));
    }

    [Theory]
    [InlineData("utf-8", true)]
    [InlineData("utf-16", true)]
    [InlineData("iso-8859-1", false)]
    public async Task Encodings_AreReadOrRefused_NeverMisread(string encoding, bool good)
    {
        var bytes = Encoding.GetEncoding(encoding);
        using var file = new MemoryStream([.. bytes.GetPreamble(), .. bytes.GetBytes("Käse")]);
        if (good)
        {
            Assert.Equal("Käse", await OrderImport.TextAsync(file));
        }
        else
        {
            Assert.Contains("not in UTF-8", (await Assert.ThrowsAsync<PlateRoomException>(() => OrderImport.TextAsync(file))).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task TooLong_IsRefused()
    {
        using var file = new MemoryStream(new byte[OrderImport.MostBytes + 1]);
        Assert.Contains("longer than 2 MiB", (await Assert.ThrowsAsync<PlateRoomException>(() => OrderImport.TextAsync(file))).Message, StringComparison.Ordinal);
        var rows = string.Concat(Enumerable.Repeat("a,b,c,d,,,e,1\n", OrderList.MostRows + 1));
        Assert.Contains("1000 orders at most", OrderList.Read(Head + rows, ',').Refusal!.Sentence, StringComparison.Ordinal);
    }

    /// <summary>RFC 4180, section 2: the rules as the list reads them.</summary>
    [Theory]
    [InlineData("customer,title,press,due\r\na,b,c,d", "b")]
    [InlineData("customer,title,press,due\r\na,\"b\",c,d\r\n", "b")]
    [InlineData("customer,title,press,due\r\na,\"b\r\nbb\",c,d\r\n", "b\r\nbb")]
    [InlineData("customer,title,press,due\r\na,\"b,\"\"bb\"\"\",c,d\r\n", "b,\"bb\"")]
    [InlineData("customer,title,press,due\na,b,c,d\n", "b")]
    public void Rfc4180_Rows(string text, string title)
    {
        var list = OrderList.Read(text, ',');
        Assert.Null(list.Refusal);
        Assert.Equal((2, title, null), (list.Rows.Single().Line, list.Rows.Single().Cells["title"], list.Rows.Single().Trouble));
    }

    private static OrderImport Import(RoomFixture room) => new(room, room.Rooms, room.Entry, room.Clock);

    private static async Task<(string Press, string Cylinder)> PressAsync(RoomFixture room)
    {
        var press = (await room.Rooms.GetAsync()).Presses[0];
        return ($"\"{press.Name}\"", $"\"{press.Cylinders[0].Name}\"");
    }
}
