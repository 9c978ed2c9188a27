using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Quality;

public class RemakeTests
{
    [Fact]
    public async Task OnePlate_FoundAtCutting_IsMadeAgain_AndItsSetWaits()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Black"]);
        var sheet = Assert.Single(ticket.Sheets);
        foreach (var (_, machine) in RoomFixture.SolventRoute[..6])
        {
            await room.PassAsync(sheet.Number, machine);
        }

        await room.ScanAsync(sheet.Number, "cutting-table");
        var cyan = sheet.Placements.Single(p => p.Plate!.Separation!.Colour == "Cyan");
        var result = await room.Remakes.RemakeAsync(
            new(sheet.Number, [cyan.PlateId], PlateDefect.Scratch, "by the ruler", Station.Cutting, Station.Cutting), "Ada");
        var made = Assert.Single(result.NewSheets);
        Assert.Equal($"1 plate is made again, on sheet {TrackingNumber.ForPeople(made)}: print its traveler. The set of ticket {TrackingNumber.ForPeople(ticket.Order.Number)} waits.", result.Sentence);
        await room.Plans.ReplanAsync();

        // The old sheet ends, and its ticket is not complete with it.
        room.Clock.Advance(TimeSpan.FromMinutes(10));
        var finish = await room.ScanAsync(sheet.Number, "cutting-table");
        Assert.Contains("still waits for 1 more sheet", finish.Sentence, StringComparison.Ordinal);
        var now = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal(TicketState.InWork, now.Ticket.State);
        Assert.Equal(2, now.Plates.Count());
        var last = now.Sheets.Single(s => s.Number == made).Stages.MaxBy(s => s.Station)!;
        Assert.Equal(last.PlannedFinishUtc, now.PlannedDoneUtc);

        var line = Assert.Single(await room.Remakes.OfTicketAsync(ticket.Order.Id));
        Assert.Equal(("Cyan", made, false), (line.Colour, line.NewSheet, line.Done));
        Assert.Equal((long)cyan.WidthUm * cyan.LengthUm, line.AreaUm2);
        Assert.True(line.SpentSeconds > 0);
        Assert.Equal(1, (await room.Orders.ListAsync(false, 0, 5)).Lines.Single(l => l.Id == ticket.Order.Id).Remakes);

        foreach (var (_, machine) in RoomFixture.SolventRoute)
        {
            await room.PassAsync(made, machine);
        }

        Assert.Equal(TicketState.Done, (await room.Orders.FindAsync(ticket.Order.Number))!.Ticket.State);
        Assert.True((await room.Remakes.OfTicketAsync(ticket.Order.Id)).Single().Done);
    }

    [Fact]
    public async Task WholeSheet_IsGivenUp_FreesItsMachine_AndCostsTheWholeSheet()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Black"]);
        var sheet = Assert.Single(ticket.Sheets);
        await room.ScanAsync(sheet.Number, "frame-1");
        var result = await room.Remakes.RemakeAsync(new(sheet.Number, [], PlateDefect.Kink, "", Station.BackExposure, Station.BackExposure), "Ada");
        var made = Assert.Single(result.NewSheets);
        Assert.Contains("2 plates are made again", result.Sentence, StringComparison.Ordinal);
        Assert.Equal(ScanOutcome.AlreadyFinished, (await room.ScanAsync(sheet.Number, "frame-1")).Outcome);
        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(made, "frame-1")).Outcome);
        var lines = await room.Remakes.OfTicketAsync(ticket.Order.Id);
        Assert.Equal(2, lines.Count);
        Assert.InRange(lines.Sum(l => l.AreaUm2), ((long)sheet.WidthUm * sheet.LengthUm) - 2, (long)sheet.WidthUm * sheet.LengthUm);
        Assert.Equal(made, Assert.Single((await room.Orders.FindAsync(ticket.Order.Number))!.Sheets).Number);
        await using var db = room.CreateDbContext();
        Assert.Equal(2, await db.AuditEntries.CountAsync(a => a.Record == nameof(Remake) && a.By == "Ada"));
    }

    [Fact]
    public async Task NewPlate_LiesAsTheOldOne_OnTheSheet()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"], acrossMm: 800, aroundMm: 390.104);
        var old = ticket.Sheets[0].Placements[0];
        var made = (await room.Remakes.RemakeAsync(new(ticket.Sheets[0].Number, [], PlateDefect.Stain, "", null, null), "Ada")).NewSheets[0];
        Assert.Equal(old.Rotated, (await room.Sheets.FindAsync(made))!.Sheet.Placements[0].Rotated);
    }

    [Fact]
    public async Task DoneTicket_WithAPlateSpoiltOnPress_IsOpenAgain()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"]);
        foreach (var (_, machine) in RoomFixture.SolventRoute)
        {
            await room.PassAsync(ticket.Sheets[0].Number, machine);
        }

        await room.Remakes.RemakeAsync(new(ticket.Sheets[0].Number, [ticket.Sheets[0].Placements[0].PlateId], PlateDefect.Cracks, "", null, null, AtOnce: false), "Ada");
        var now = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal((TicketState.InWork, null), (now.Ticket.State, now.Ticket.DoneUtc));
        Assert.Null(now.PlannedDoneUtc);
        Assert.Equal("Cyan", Assert.Single(await room.Layouts.WaitingAsync(ticket.Order.MaterialId)).Colour);
    }

    [Fact]
    public async Task SamePlateTwice_AndNothingSaid_AreRefused()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Black"]);
        var request = new RemakeRequest(ticket.Sheets[0].Number, [ticket.Sheets[0].Placements[0].PlateId], PlateDefect.Scum, "", null, null);
        await room.Remakes.RemakeAsync(request, "Ada");
        var twice = await Assert.ThrowsAsync<PlateRoomException>(() => room.Remakes.RemakeAsync(request, "Ada"));
        Assert.Contains("being made again already", twice.Message, StringComparison.Ordinal);
        var silent = await Assert.ThrowsAsync<PlateRoomException>(() => room.Remakes.RemakeAsync(request with { Defect = PlateDefect.Other }, "Ada"));
        Assert.Contains("Say in a few words", silent.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnotherTicketsPlates_OnTheSameSheet_AreNotHeldUpByTheRemake()
    {
        await using var room = await RoomFixture.CreateAsync();
        var a = await room.OrderWaitingAsync(["Cyan"]);
        var b = await room.OrderWaitingAsync(["Black"]);
        var material = a.Order.MaterialId;
        var shelf = await room.Layouts.ShelfAsync(material, 2);
        var nest = LayoutProposal.Make(await room.Rooms.GetAsync(), shelf, await room.Layouts.WaitingAsync(material), new(default, null));
        var shared = Assert.Single(await room.Layouts.ReleaseAsync(material, nest.Sheets, shelf, "test"));
        var plate = (await room.Orders.FindAsync(a.Order.Number))!.Plates.Single().Id;
        await room.Remakes.RemakeAsync(new(shared, [plate], PlateDefect.Pinholes, "", Station.Imaging, Station.Imaging), "Ada");
        foreach (var (_, machine) in RoomFixture.SolventRoute)
        {
            await room.PassAsync(shared, machine);
        }

        Assert.Equal(TicketState.Done, (await room.Orders.FindAsync(b.Order.Number))!.Ticket.State);
        Assert.NotEqual(TicketState.Done, (await room.Orders.FindAsync(a.Order.Number))!.Ticket.State);
    }
}
