using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Stations;

public class ScanDeskTests
{
    [Fact]
    public async Task AllStations_InOrder_FinishSheetAndTicket()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Black"]);
        var sheet = Assert.Single(ticket.Sheets).Number;
        foreach (var (station, machine) in RoomFixture.SolventRoute)
        {
            var (start, finish) = await room.PassAsync(sheet, machine);
            Assert.Equal(ScanOutcome.Started, start.Outcome);
            Assert.Equal(ScanOutcome.Finished, finish.Outcome);
            var now = (await room.Sheets.FindAsync(sheet))!.Sheet;
            Assert.Equal(StageState.Done, now.Stages.Single(s => s.Station == station).State);
        }

        var done = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal(SheetState.Done, done.Sheets[0].State);
        Assert.Equal(TicketState.Done, done.Ticket.State);
        Assert.NotNull(done.Ticket.DoneUtc);
    }

    [Fact]
    public async Task TicketWithTwoSheets_IsDoneOnlyWithItsLastSheet()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Magenta", "Yellow", "Black", "White"], acrossMm: 560, aroundMm: 549);
        Assert.True(ticket.Sheets.Count > 1);
        foreach (var (sheet, index) in ticket.Sheets.Select((s, i) => (s.Number, i)))
        {
            ScanReply last = null!;
            foreach (var (_, machine) in RoomFixture.SolventRoute)
            {
                last = (await room.PassAsync(sheet, machine)).Finish;
            }

            var state = (await room.Orders.FindAsync(ticket.Order.Number))!.Ticket.State;
            var isLast = index == ticket.Sheets.Count - 1;
            Assert.Equal(isLast ? TicketState.Done : TicketState.InWork, state);
            Assert.Contains(isLast ? "is complete" : "still waits for", last.Sentence, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Cutting_EndsWhenTheHandsAreDone_AndADoubleScanCountsOnce()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan", "Black"])).Sheets[0].Number;
        foreach (var (_, machine) in RoomFixture.SolventRoute.Where(s => s.Station != Station.Cutting))
        {
            await room.PassAsync(sheet, machine);
        }

        var start = await room.ScanAsync(sheet, "cutting-table");
        Assert.Contains("Run 4 min.", start.Sentence, StringComparison.Ordinal);
        room.Clock.Advance(TimeSpan.FromSeconds(3));
        Assert.Equal(ScanOutcome.AlreadyRunning, (await room.ScanAsync(sheet, "cutting-table")).Outcome);
        room.Clock.Advance(TimeSpan.FromSeconds(60));
        var finish = await room.ScanAsync(sheet, "cutting-table");
        Assert.Equal(ScanOutcome.Finished, finish.Outcome);
        Assert.Contains("The sheet is done. Ticket", finish.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SameId_Twice_IsOneScanAndTheSameAnswer()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var id = Guid.NewGuid();
        var first = await room.ScanAsync(sheet, "frame-1", id: id);
        var second = await room.ScanAsync(sheet, "frame-1", id: id);
        Assert.Equal(first with { Repeated = true }, second);
        await using var db = room.CreateDbContext();
        Assert.Equal(1, await db.Scans.CountAsync());
    }

    [Fact]
    public async Task SameId_TwentyTimesAtOnce_IsOneScan()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var id = Guid.NewGuid();
        var replies = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => Task.Run(() => room.ScanAsync(sheet, "frame-1", id: id))));
        Assert.All(replies, r => Assert.Equal(ScanOutcome.Started, r.Outcome));
        Assert.Single(replies, r => !r.Repeated);
        await using var db = room.CreateDbContext();
        Assert.Equal(1, await db.Scans.CountAsync());
    }

    [Fact]
    public async Task TwoMachinesAtOnce_OnlyOneGetsTheSheet()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var replies = await Task.WhenAll(
            Task.Run(() => room.ScanAsync(sheet, "frame-1")), Task.Run(() => room.ScanAsync(sheet, "frame-2")));
        Assert.Single(replies, r => r.Outcome == ScanOutcome.Started);
        var refused = Assert.Single(replies, r => r.Outcome == ScanOutcome.WrongStation);
        Assert.Contains("Finish it there first", refused.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SecondScan_WhileRunning_CountsNothingTwice()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await room.ScanAsync(sheet, "frame-1");
        room.Clock.Advance(TimeSpan.FromSeconds(20));
        var again = await room.ScanAsync(sheet, "frame-1");
        Assert.Equal(ScanOutcome.AlreadyRunning, again.Outcome);
        Assert.Contains("was started here at 08:00 already. Nothing was counted twice.", again.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task WrongStation_SaysWhereTheSheetBelongs()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var reply = await room.ScanAsync(sheet, "dryer");
        Assert.Equal(ScanOutcome.WrongStation, reply.Outcome);
        Assert.Contains("is not for Dryer now. Next is back exposure, planned on Frame", reply.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FinishedStage_ScannedAgain_SaysWhenItWasFinishedAndWhatIsNext()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await room.PassAsync(sheet, "frame-1");
        await room.PassAsync(sheet, "imager-a");
        var reply = await room.ScanAsync(sheet, "imager-a");
        Assert.Equal(ScanOutcome.AlreadyFinished, reply.Outcome);
        Assert.Contains("Next is face exposure", reply.Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", ScanOutcome.NotANumber, "Nothing was read")]
    [InlineData("4006381333931", ScanOutcome.NotANumber, "is not a sheet number")]
    public async Task OtherCodes_GetTheirOwnSentence(string code, ScanOutcome outcome, string words)
    {
        await using var room = await RoomFixture.CreateAsync();
        var reply = await room.ScanAsync(code, "frame-1");
        Assert.Equal(outcome, reply.Outcome);
        Assert.Contains(words, reply.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task BadCheckCharacter_TicketNumberAndUnknownSheet_GetTheirOwnSentences()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan"]);
        var sheet = ticket.Sheets[0].Number;
        var other = TrackingNumber.Alphabet.First(c => c != sheet[4]);
        var misread = await room.ScanAsync(sheet[..4] + other + sheet[5..], "frame-1");
        Assert.Equal(ScanOutcome.Misread, misread.Outcome);
        Assert.Contains("was misread: its check character does not fit", misread.Sentence, StringComparison.Ordinal);

        var ticketNumber = await room.ScanAsync(ticket.Order.Number, "frame-1");
        Assert.Equal(ScanOutcome.TicketNumber, ticketNumber.Outcome);
        Assert.Contains("scan the sheet's own traveler", ticketNumber.Sentence, StringComparison.Ordinal);

        var unknown = await room.ScanAsync(Enumerable.Range(900_000, 9).Select(n => TrackingNumber.FromSequence(NumberKind.Sheet, n)).OfType<string>().First(), "frame-1");
        Assert.Equal(ScanOutcome.UnknownSheet, unknown.Outcome);
        Assert.Contains("No sheet has the number", unknown.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RefusedScans_AreRecordedAndChangeNothing()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await room.ScanAsync(sheet, "dryer");
        await room.ScanAsync("4006381333931", "dryer");
        await using var db = room.CreateDbContext();
        Assert.Equal(2, await db.Scans.CountAsync());
        Assert.Equal(SheetState.Waiting, (await room.Sheets.FindAsync(sheet))!.Sheet.State);
        Assert.Equal(TicketState.Ready, await db.Tickets.Select(t => t.State).SingleAsync());
    }

    [Fact]
    public async Task BusyFrame_NamesTheSheetInside()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var second = (await room.OrderAsync(["Black"])).Sheets[0].Number;
        await room.ScanAsync(first, "frame-1");
        var reply = await room.ScanAsync(second, "frame-1");
        Assert.Equal(ScanOutcome.MachineBusy, reply.Outcome);
        Assert.Contains($"still holds sheet {TrackingNumber.ForPeople(first)}", reply.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FinishBeforeTheTimeIsOver_IsRefusedUntilAPersonConfirms()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await room.ScanAsync(sheet, "frame-1");
        room.Clock.Advance(TimeSpan.FromSeconds(100));
        var early = await room.ScanAsync(sheet, "frame-1", ScanAction.Finish);
        Assert.Equal(ScanOutcome.TooEarly, early.Outcome);
        Assert.Contains("Leave it in, or confirm", early.Sentence, StringComparison.Ordinal);
        Assert.Equal(ScanOutcome.Finished, (await room.ScanAsync(sheet, "frame-1", ScanAction.Finish, confirmed: true)).Outcome);
    }

    [Fact]
    public async Task MachineThatIsMarkedDown_TakesNothingBeforeSomebodySaysThatItWorks()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan", "Black"])).Sheets[0].Number;
        var frame = (await room.Rooms.GetAsync()).Equipment.Single(e => e.Slug == "frame-1").Id;
        var now = room.Clock.GetUtcNow().UtcDateTime;
        await room.Duty.SetDownAsync(frame, now, now.AddHours(2), "Lamp guard open.", "Lead");
        var refused = await room.ScanAsync(sheet, "frame-1");
        Assert.Equal(ScanOutcome.MachineDown, refused.Outcome);
        Assert.Contains(" is marked down until 10:00: Lamp guard open. Do not put sheet", refused.Sentence, StringComparison.Ordinal);
        await room.Duty.SetUpAsync(frame, "Lead");
        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(sheet, "frame-1")).Outcome);
        // What lies inside comes out of a machine that goes down meanwhile.
        await room.Duty.SetDownAsync(frame, room.Clock.GetUtcNow().UtcDateTime, now.AddHours(2), "", "Lead");
        room.Clock.Advance(TimeSpan.FromHours(1));
        Assert.Equal(ScanOutcome.Finished, (await room.ScanAsync(sheet, "frame-1")).Outcome);
    }

    [Fact]
    public async Task StartAtAMachineThatIsMarkedDown_IsKeptWhenConfirmed_OrReadWithoutAConnection()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var second = (await room.OrderAsync(["Black"])).Sheets[0].Number;
        var equipment = (await room.Rooms.GetAsync()).Equipment;
        var now = room.Clock.GetUtcNow().UtcDateTime;
        foreach (var slug in (string[])["frame-1", "frame-2"])
        {
            await room.Duty.SetDownAsync(equipment.Single(e => e.Slug == slug).Id, now, now.AddHours(2), "", "Lead");
        }

        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(first, "frame-1", confirmed: true)).Outcome);
        var offline = await room.Desk.RecordAsync(new ScanRequest(Guid.NewGuid(), second, "frame-2", ScanAction.Next, "Test operator") { Offline = true });
        Assert.Equal(ScanOutcome.Started, offline.Outcome);
        Assert.EndsWith("was marked down then: see that it works.", offline.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task RestAfterDrying_MustBeOverBeforePostFinish()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        foreach (var (_, machine) in RoomFixture.SolventRoute[..4])
        {
            await room.PassAsync(sheet, machine);
        }

        await room.ScanAsync(sheet, "dryer");
        room.Clock.Advance(TimeSpan.FromHours(2));
        await room.ScanAsync(sheet, "dryer");
        var reply = await room.ScanAsync(sheet, "finisher");
        Assert.Equal(ScanOutcome.TooEarly, reply.Outcome);
        Assert.Contains("must rest until", reply.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SolventSheet_InTheWaterWasher_IsRefused()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        foreach (var (_, machine) in RoomFixture.SolventRoute[..3])
        {
            await room.PassAsync(sheet, machine);
        }

        var reply = await room.ScanAsync(sheet, "water-washer");
        Assert.Equal(ScanOutcome.WrongEquipment, reply.Outcome);
        Assert.Contains("its material needs Line washer", reply.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SheetOnHold_TellsTheReason()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await using (var db = room.CreateDbContext())
        {
            var row = await db.Sheets.SingleAsync();
            row.State = SheetState.OnHold;
            row.HoldReason = "wrong cyan file";
            await db.SaveChangesAsync();
        }

        var reply = await room.ScanAsync(sheet, "frame-1");
        Assert.Equal(ScanOutcome.OnHold, reply.Outcome);
        Assert.Contains("on hold: wrong cyan file", reply.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ReaderClockAhead_IsRefused()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var reply = await room.Desk.RecordAsync(
            new ScanRequest(Guid.NewGuid(), sheet, "frame-1", ScanAction.Next, "Test operator", ReadUtc: room.Now.AddMinutes(10)));
        Assert.Equal(ScanOutcome.WrongClock, reply.Outcome);
    }

    [Fact]
    public async Task FrameWithoutAReading_IsLeftOutOfThePlan_AndRefusesWithWhatToDo()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using (var db = room.CreateDbContext())
        {
            await db.LampReadings.Where(r => r.EquipmentId == 2).ExecuteDeleteAsync();
        }

        room.Rooms.Forget();
        var ticket = await room.OrderAsync(["Cyan"]);
        var sheet = ticket.Sheets[0].Number;
        Assert.Equal("Frame 1", ticket.Sheets[0].Stages.Single(s => s.Station == Station.FaceExposure).Equipment!.Name);
        await room.PassAsync(sheet, "frame-1");
        await room.PassAsync(sheet, "imager-a");
        var reply = await room.ScanAsync(sheet, "frame-2");
        Assert.Equal(ScanOutcome.NoTime, reply.Outcome);
        Assert.Contains("Frame 2 has no reading of its face lamps", reply.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task NoFrameWithAReading_TheSheetIsNotPlanned_AndSaysWhy()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using (var db = room.CreateDbContext())
        {
            await db.LampReadings.ExecuteDeleteAsync();
        }

        room.Rooms.Forget();
        var solvent = await room.OrderAsync(["Cyan"]);
        var face = solvent.Sheets[0].Stages.Single(s => s.Station == Station.FaceExposure);
        Assert.Null(face.PlannedFinishUtc);
        Assert.Contains("has no reading of its face lamps", face.Flags, StringComparison.Ordinal);
        Assert.Equal(0, await room.Plans.ReplanAsync());
    }

    [Fact]
    public async Task UnknownMachine_IsAnError()
    {
        await using var room = await RoomFixture.CreateAsync();
        await Assert.ThrowsAsync<KeyNotFoundException>(() => room.ScanAsync("S", "no-such-machine"));
    }
}
