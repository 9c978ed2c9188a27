using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;

namespace PlateTickets.Tickets.Tests.Orders;

public class OrderEntryTests
{
    [Theory]
    [InlineData("test customer")]
    [InlineData(" TEST Customer ")]
    public async Task ACustomerTypedInOtherCapitals_IsTheSame(string typed)
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = await room.OrderAsync(["Cyan"]);
        var number = await room.Entry.EnterAsync(await room.NewOrderAsync() with { NewCustomer = typed }, [RoomFixture.Read("Black")], "test");
        Assert.Equal((first.Order.CustomerId, "Test Customer"), ((await room.Orders.FindAsync(number))!.Order.CustomerId, (await room.Orders.FindAsync(number))!.Order.Customer!.Name));
    }

    [Fact]
    public async Task ACustomer_IsFoundByAnyPartOfTheName_InAnyCapitals()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using var db = room.CreateDbContext();
        db.Customers.AddRange(new Customer { Name = "Fern & Söhne" }, new Customer { Name = "100% Linen_Mill" });
        await db.SaveChangesAsync();
        async Task<string> Found(string part) => string.Join(", ", await db.Customers.WithInName(part).OrderBy(c => c.Name).Select(c => c.Name).ToListAsync());
        Assert.Equal("Fern & Söhne", await Found("FERN & s"));
        Assert.Equal("Fern & Söhne", await Found("söhne"));
        Assert.Equal("100% Linen_Mill", await Found("0% linen_m"));
        Assert.Equal("", await Found("100_"));
        Assert.Equal("", await Found("\\"));
    }

    [Fact]
    public async Task Order_MakesOnePlatePerColourAndCopy_OnSheetsWithTheirStages()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Magenta", "Yellow", "Black", "Harvest Orange"], copies: 2);
        Assert.Equal(10, ticket.Ticket.Plates.Count);
        Assert.Equal(TicketState.Ready, ticket.Ticket.State);
        Assert.All(ticket.Ticket.Plates.GroupBy(p => p.SeparationId), g => Assert.Equal([1, 2], g.Select(p => p.Copy).Order()));
        Assert.Equal(10, ticket.Sheets.Sum(s => s.Placements.Count));
        Assert.All(ticket.Sheets, s => Assert.Equal(Process.Stations.InOrder, s.Stages.Select(t => t.Station)));
    }

    [Fact]
    public async Task Layout_KeepsMarginsGapsAndOneOrientation()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Magenta", "Yellow", "Black", "White"], acrossMm: 260);
        var rules = (await room.Rooms.GetAsync()).NestRules;
        Assert.All(ticket.Sheets, s =>
        {
            var nested = new NestSheet(0, s.WidthUm, s.LengthUm, [.. s.Placements.Select(p => new PlacedPlate(p.PlateId, p.XUm, p.YUm, p.WidthUm, p.LengthUm, p.Rotated))]);
            Assert.Empty(LayoutChecker.Violations(nested, rules));
            Assert.Equal(nested.AxialExtent, s.AxialExtentUm);
        });
        Assert.Single(ticket.Sheets.SelectMany(s => s.Placements).Select(p => p.Rotated).Distinct());
    }

    [Fact]
    public async Task Plan_GivesEveryStageItsTimeMachineAndDueBy()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Black"]);
        var stages = ticket.Sheets.Single().Stages.OrderBy(s => s.Station).ToList();
        Assert.All(stages, s =>
        {
            Assert.NotNull(s.Equipment);
            Assert.True(s.RunSeconds > 0);
            Assert.NotEmpty(s.Explanation);
            Assert.True(s.PlannedFinishUtc - s.PlannedStartUtc >= TimeSpan.FromSeconds(s.TotalSeconds - 2));
        });
        Assert.Equal(stages.Select(s => s.PlannedStartUtc).Order(), stages.Select(s => s.PlannedStartUtc));
        Assert.Equal(stages.Select(s => s.DueByUtc).Order(), stages.Select(s => s.DueByUtc));
        Assert.True(stages[^1].DueByUtc <= ticket.Order.DueUtc);
    }

    /// <summary>Common practice for a 1.70 mm solvent plate on a 900 x 1200 mm sheet: back about 100 s, face about 12 min, drying one to two hours.</summary>
    [Fact]
    public async Task DemoSolventMaterial_StageTimes_AreNearCommonPractice()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Magenta"], acrossMm: 860, aroundMm: 549);
        var sheet = ticket.Sheets.Single();
        Assert.Equal((900_000, 1_200_000), (sheet.WidthUm, sheet.LengthUm));
        int Run(Station station) => sheet.Stages.Single(s => s.Station == station).RunSeconds;
        Assert.InRange(Run(Station.BackExposure), 95, 110);
        Assert.InRange(Run(Station.FaceExposure), 11.5 * 60, 12.5 * 60);
        Assert.InRange(Run(Station.Drying), 3600, 7200);
        Assert.InRange(Run(Station.Imaging), 60, 30 * 60);
        Assert.InRange(Run(Station.Washout), 10 * 60, 40 * 60);
    }

    [Fact]
    public async Task ThermalMaterial_HasNoDryingStage()
    {
        await using var room = await RoomFixture.CreateAsync();
        var catalog = await room.Rooms.GetAsync();
        var press = catalog.Presses.Single(p => catalog.Materials[p.UsualMaterialId].Process == WashoutProcess.Thermal);
        var order = await room.NewOrderAsync() with { PressId = press.Id, CylinderId = press.Cylinders[0].Id };
        var number = await room.Entry.EnterAsync(order, [RoomFixture.Read("Black", 400, 400)], "test");
        var sheet = (await room.Orders.FindAsync(number))!.Sheets.Single();
        Assert.DoesNotContain(sheet.Stages, s => s.Station == Station.Drying);
        Assert.Equal(6, sheet.Stages.Count);
    }

    [Fact]
    public async Task PlateThatFitsNoStockSize_IsNamed_AndNothingIsSaved()
    {
        await using var room = await RoomFixture.CreateAsync();
        var refused = await Assert.ThrowsAsync<OrderRefusedException>(
            async () => await room.Entry.EnterAsync(await room.NewOrderAsync(), [RoomFixture.Read("Cyan"), RoomFixture.Read("Black", 1300, 1250)], "test"));
        Assert.Contains("job(Black).tif is 1300 × 1250 mm and fits on no stock size", refused.Errors["job(Black).tif"], StringComparison.Ordinal);
        Assert.DoesNotContain("job(Cyan).tif", refused.Errors.Keys);
        await using var db = room.CreateDbContext();
        Assert.Equal(0, await db.Orders.CountAsync());
    }

    [Fact]
    public async Task SameColourTwice_IsNamed()
    {
        await using var room = await RoomFixture.CreateAsync();
        var refused = await Assert.ThrowsAsync<OrderRefusedException>(
            async () => await room.Entry.EnterAsync(await room.NewOrderAsync(), [RoomFixture.Read("Cyan"), RoomFixture.Read("cyan")], "test"));
        Assert.Contains("this job has a cyan already", Assert.Single(refused.Errors).Value, StringComparison.Ordinal);
    }

    [Fact]
    public async Task EveryMistake_IsNamedAtOnce()
    {
        await using var room = await RoomFixture.CreateAsync();
        var refused = await Assert.ThrowsAsync<OrderRefusedException>(
            () => room.Entry.EnterAsync(new NewOrder { Copies = 0, DueUtc = room.Now.AddHours(-1) }, [], "test"));
        Assert.Equal(
            [nameof(NewOrder.Copies), nameof(NewOrder.CustomerId), nameof(NewOrder.DueUtc), nameof(NewOrder.PressId), nameof(NewOrder.Title)],
            refused.Errors.Keys.Order());
    }

    [Fact]
    public async Task OrderWithoutFiles_WaitsForThem_AndTakesThemLater()
    {
        await using var room = await RoomFixture.CreateAsync();
        var number = await room.Entry.EnterAsync(await room.NewOrderAsync(), [], "test");
        Assert.Equal(TicketState.WaitingForFiles, (await room.Orders.FindAsync(number))!.Ticket.State);
        await room.Entry.AddSeparationsAsync(number, [RoomFixture.Read("Cyan")], "test", layOut: false);
        await room.Entry.AddSeparationsAsync(number, [RoomFixture.Read("Black")], "test");
        var ticket = (await room.Orders.FindAsync(number))!;
        Assert.Equal(TicketState.Ready, ticket.Ticket.State);
        Assert.Equal(["Cyan", "Black"], ticket.Ticket.Separations.Select(s => s.Colour));
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => room.Entry.AddSeparationsAsync(number, [RoomFixture.Read("White")], "test"));
        Assert.Contains("is laid out already", refused.Message, StringComparison.Ordinal);
    }

    // Repeat 400 mm on 1.70 mm: flat length 390.1 mm (computed).
    [Theory]
    [InlineData(400, "Looks not distorted")]
    [InlineData(380.453, "Looks distorted twice")]
    [InlineData(383.255, "Looks distorted for a plate of 2.84 mm")]
    [InlineData(420, "Too long")]
    public async Task LengthThatLooksWrong_IsTakenWithAReasonOnly(double aroundMm, string words)
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.NewOrderAsync();
        var refused = await Assert.ThrowsAsync<OrderRefusedException>(
            () => room.Entry.EnterAsync(order, [RoomFixture.Read("Cyan", 300, aroundMm, acceptedBecause: " ")], "test"));
        Assert.Contains(words, refused.Errors["job(Cyan).tif"], StringComparison.Ordinal);
        Assert.Contains("accept it with a reason", refused.Errors["job(Cyan).tif"], StringComparison.Ordinal);

        var number = await room.Entry.EnterAsync(order, [RoomFixture.Read("Cyan", 300, aroundMm, acceptedBecause: "plate for a trial")], "test");
        Assert.Equal("plate for a trial", (await room.Orders.FindAsync(number))!.Ticket.Separations.Single().AcceptedBecause);
    }

    [Fact]
    public async Task RightLength_OrAFractionOfIt_NeedsNoReason()
    {
        await using var room = await RoomFixture.CreateAsync();
        foreach (var (around, verdict) in new[] { (390.104, "Right"), (195.052, "Fraction") })
        {
            var number = await room.Entry.EnterAsync(await room.NewOrderAsync(), [RoomFixture.Read("Cyan", 300, around, "")], "test");
            Assert.Equal(verdict, Assert.Single((await room.Orders.FindAsync(number))!.Ticket.Separations).LengthVerdict.ToString());
        }
    }

    [Fact]
    public async Task ColoursOfDifferentSizes_NeedAReason()
    {
        await using var room = await RoomFixture.CreateAsync();
        var order = await room.NewOrderAsync();
        var refused = await Assert.ThrowsAsync<OrderRefusedException>(
            () => room.Entry.EnterAsync(order, [RoomFixture.Read("Cyan", 300, 390.104, ""), RoomFixture.Read("Black", 300, 195.052, "")], "test"));
        Assert.Contains("the colours of one job are one size", Assert.Single(refused.Errors).Value, StringComparison.Ordinal);
        await room.Entry.EnterAsync(order, [RoomFixture.Read("Cyan", 300, 390.104, ""), RoomFixture.Read("Black", 300, 195.052, "the black is a strip")], "test");
    }

    [Fact]
    public async Task NewCustomer_IsAddedOnce()
    {
        await using var room = await RoomFixture.CreateAsync();
        await room.OrderAsync(["Cyan"]);
        await room.OrderAsync(["Cyan"]);
        await using var db = room.CreateDbContext();
        Assert.Equal(1, await db.Customers.CountAsync(c => c.Name == "Test Customer"));
    }
}
