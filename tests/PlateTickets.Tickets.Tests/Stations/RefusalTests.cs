using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Stations;

/// <summary>What is refused at a station must say what happened, to which sheet, and what to do.</summary>
public class RefusalTests
{
    [Fact]
    public async Task ChecksOpen_NamesThePointsThatTheRecipeWants_AndStartsWhenTicked()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = await AtAsync(room, Station.Imaging);
        var refused = await room.ScanAsync(sheet, "imager-a", ticked: CheckPoint.ClampsClosed);
        Assert.Equal(ScanOutcome.ChecksOpen, refused.Outcome);
        Assert.Equal($"Before imaging of sheet {TrackingNumber.ForPeople(sheet)}, tick: cover film off. Then press Start or scan again.", refused.Sentence);
        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(sheet, "imager-a", ticked: CheckPoint.ClampsClosed | CheckPoint.CoverFilmOff)).Outcome);
    }

    [Fact]
    public async Task ReadWithoutAConnection_NobodyCouldTick_ItStartsAndSaysSo()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = await AtAsync(room, Station.Imaging);
        var reply = await room.Desk.RecordAsync(new ScanRequest(Guid.NewGuid(), sheet, "imager-a", ScanAction.Next, "Test operator") { Offline = true });
        Assert.Equal(ScanOutcome.Started, reply.Outcome);
        Assert.Contains("Its check list was not ticked: it was read without a connection.", reply.Sentence, StringComparison.Ordinal);
        await using var db = room.CreateDbContext();
        Assert.True((await db.Scans.SingleAsync(s => s.Id == reply.Id)).Offline);
    }

    [Fact]
    public async Task LainTooLong_IsRefused_UntilALeadLetsItGoOnWithAReason()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = await AtAsync(room, Station.Drying);
        room.Clock.Advance(TimeSpan.FromMinutes(90));
        var refused = await room.ScanAsync(sheet, "dryer");
        Assert.Equal(ScanOutcome.WaitedTooLong, refused.Outcome);
        Assert.Contains($"Since washout sheet {TrackingNumber.ForPeople(sheet)} has lain 1 h 30 min; its recipe allows 1 h.", refused.Sentence, StringComparison.Ordinal);
        Assert.Contains("ask the lead, who lets it go on with a reason, repeats a stage, or has it made again", refused.Sentence, StringComparison.Ordinal);

        await Assert.ThrowsAsync<PlateRoomException>(() => room.Stages.GoOnAsync(sheet, " ", "Lead"));
        await room.Stages.GoOnAsync(sheet, "the cover kept it dark and dry", "Lead");
        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(sheet, "dryer")).Outcome);
    }

    [Fact]
    public async Task OpenReading_StopsTheNextStage_UntilItIsAccepted()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = await AtAsync(room, Station.Imaging);
        await room.Readings.LengthAsync(new(sheet, Station.BackExposure, 1), ReadingKind.Floor, 1.30, Process.Units.LengthSystem.Metric, "Ada");
        var refused = await room.ScanAsync(sheet, "imager-a");
        Assert.Equal(ScanOutcome.ReadingOpen, refused.Outcome);
        Assert.Equal(
            $"Sheet {TrackingNumber.ForPeople(sheet)} does not go on yet. Floor 1.3 mm is out of its limits (1.14 to 1.24 mm). Decide on its card: accept it with a reason, make the sheet again, or put it on hold.",
            refused.Sentence);
        var reading = Assert.Single(await room.Readings.OfSheetAsync(refused.SheetId!.Value));
        await room.Readings.AcceptAsync(reading.Id, "coarse screen", "Lead");
        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(sheet, "imager-a")).Outcome);
    }

    [Fact]
    public async Task OtherLot_IsRefused_AndBecomesTheSheetsLotWhenAccepted()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0];
        await using var db = room.CreateDbContext();
        var planned = await db.StockLots.SingleAsync(l => l.Id == sheet.StockLotId);
        var other = await db.StockLots.FirstAsync(l => l.StockSizeId == planned.StockSizeId && l.Id != planned.Id);

        var right = await room.ScanAsync(planned.Lot, "frame-1", of: sheet.Number);
        Assert.Equal((ScanOutcome.LotRight, $"Lot {planned.Lot} is the planned one. Go on."), (right.Outcome, right.Sentence));
        var refused = await room.ScanAsync(other.Lot.ToLowerInvariant(), "frame-1", of: sheet.Number);
        Assert.Equal(ScanOutcome.OtherLot, refused.Outcome);
        Assert.Equal(
            $"Sheet {TrackingNumber.ForPeople(sheet.Number)}: Lot {other.Lot} was read, lot {planned.Lot} is planned. Take a sheet of the planned lot, or let the lead accept this one with a reason.",
            refused.Sentence);
        Assert.Equal(ScanOutcome.ReadingOpen, (await room.ScanAsync(sheet.Number, "frame-1")).Outcome);

        var open = (await room.Readings.OfSheetAsync(sheet.Id)).Single(r => r.State == ReadingState.Open);
        await room.Readings.AcceptAsync(open.Id, "the planned pallet is blocked", "Lead");
        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(sheet.Number, "frame-1")).Outcome);
        await using var after = room.CreateDbContext();
        Assert.Equal(other.Lot, (await after.Sheets.SingleAsync()).Lot);
        Assert.Equal((planned.Sheets + 1, other.Sheets - 1), ((await after.StockLots.FindAsync(planned.Id))!.Sheets, (await after.StockLots.FindAsync(other.Id))!.Sheets));
    }

    [Fact]
    public async Task LotOfAnotherMaterial_OrNoLotAtAll_IsNoSheetNumber()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        Assert.Equal(ScanOutcome.NotANumber, (await room.ScanAsync("L-2431", "frame-1", of: sheet)).Outcome);
        Assert.Equal(ScanOutcome.NotANumber, (await room.ScanAsync("L-2331", "frame-1")).Outcome);
    }

    [Fact]
    public async Task Drawers_TakeSheetsOneAfterTheOther_AndRefuseATakenOne()
    {
        await using var room = await RoomFixture.CreateAsync();
        var dryer = (await room.Rooms.GetAsync()).EquipmentBySlug("dryer")!;
        var first = await AtAsync(room, Station.Drying);
        var second = await AtAsync(room, Station.Drying);
        var alone = await room.ScanAsync(Drawers.NumberOf(dryer.Id, 3), "dryer");
        Assert.Equal((ScanOutcome.DrawerAlone, "Drawer 3 is empty. Scan the sheet first, then its drawer."), (alone.Outcome, alone.Sentence));

        await room.ScanAsync(first, "dryer");
        var set = await room.ScanAsync(Drawers.NumberOf(dryer.Id, 3), "dryer", of: first);
        Assert.Equal((ScanOutcome.DrawerSet, $"Sheet {TrackingNumber.ForPeople(first)} is in drawer 3. Scan the next sheet."), (set.Outcome, set.Sentence));
        await room.ScanAsync(second, "dryer");
        var taken = await room.ScanAsync(Drawers.NumberOf(dryer.Id, 3), "dryer", of: second);
        Assert.Equal(ScanOutcome.DrawerTaken, taken.Outcome);
        Assert.Contains($"Drawer 3 holds sheet {TrackingNumber.ForPeople(first)} since", taken.Sentence, StringComparison.Ordinal);
        Assert.Contains("into an empty drawer and scan that one", taken.Sentence, StringComparison.Ordinal);
        Assert.Equal(ScanOutcome.DrawerSet, (await room.ScanAsync(Drawers.NumberOf(dryer.Id, 4), "dryer", of: second)).Outcome);

        var elsewhere = await room.ScanAsync(Drawers.NumberOf(dryer.Id, 5), "frame-1", of: second);
        Assert.Equal("That is drawer 5 of Dryer, and this page is for Frame 1. Scan it on the page of Dryer.", elsewhere.Sentence);
        var unknown = await room.ScanAsync(Drawers.NumberOf(150, 1), "dryer", of: second);
        Assert.Contains("No drawer of this room has the number D", unknown.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void EveryDrawer_OfTwoHundredMachines_HasItsOwnGoodNumber()
    {
        var numbers = Enumerable.Range(1, 200).SelectMany(m => Enumerable.Range(1, 40).Select(d => Drawers.NumberOf(m, d))).ToList();
        Assert.Equal(numbers.Count, numbers.Distinct().Count());
        Assert.All(numbers, n => Assert.Equal(NumberKind.Drawer, TrackingNumber.Read(n).Kind));
    }

    [Fact]
    public async Task SheetOnHold_InAMachine_MayComeOut_AndStaysOnHold()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await room.ScanAsync(sheet, "frame-1");
        await room.Stages.HoldAsync(sheet, "scratch seen", "Ada");
        var finish = await room.ScanAsync(sheet, "frame-1", ScanAction.Finish, confirmed: true);
        Assert.Equal(ScanOutcome.Finished, finish.Outcome);
        Assert.Contains("It stays on hold: scratch seen. Put it aside and ask the lead.", finish.Sentence, StringComparison.Ordinal);
        Assert.Equal(ScanOutcome.OnHold, (await room.ScanAsync(sheet, "imager-a")).Outcome);
        await room.Stages.ReleaseAsync(sheet, "Lead");
        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(sheet, "imager-a")).Outcome);
    }

    [Theory]
    [InlineData(-47)]
    [InlineData(0)]
    [InlineData(47)]
    public async Task ClockOfTheTablet_IsCorrectedByTheServers(int minutesWrong)
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var tablet = room.Now.AddMinutes(minutesWrong);
        var reply = await room.Desk.RecordAsync(
            new ScanRequest(Guid.NewGuid(), sheet, "frame-1", ScanAction.Next, "Test operator", ReadUtc: tablet.AddMinutes(-12)) { SentUtc = tablet, Offline = true });
        Assert.Equal(ScanOutcome.Started, reply.Outcome);
        Assert.Equal(-60 * minutesWrong, reply.ClockBehindSeconds);
        Assert.Equal(room.Now.AddMinutes(-12), (await room.Sheets.FindAsync(sheet))!.Sheet.Stages.Single(s => s.State == StageState.Running).StartedUtc);
    }

    /// <summary>A new sheet that waits for a station.</summary>
    private static async Task<string> AtAsync(RoomFixture room, Station station)
    {
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        foreach (var (at, machine) in RoomFixture.SolventRoute)
        {
            if (at == station)
            {
                return sheet;
            }

            await room.PassAsync(sheet, machine);
        }

        throw new ArgumentOutOfRangeException(nameof(station), station, "The route ends before it.");
    }
}
