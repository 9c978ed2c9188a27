using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Quality;

public class StageDeskTests
{
    [Fact]
    public async Task Skip_PassesOverTheNextStage_WithItsReasonKept()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await room.PassAsync(sheet, "frame-1");
        await Assert.ThrowsAsync<PlateRoomException>(() => room.Stages.SkipAsync(sheet, "", "Lead"));
        var told = await room.Stages.SkipAsync(sheet, "mask was written on the other imager by hand", "Lead");
        Assert.Equal($"Imaging of sheet {TrackingNumber.ForPeople(sheet)} is skipped. Next is face exposure.", told);
        Assert.Equal(ScanOutcome.Started, (await room.ScanAsync(sheet, "frame-2")).Outcome);
        var stage = (await room.Sheets.FindAsync(sheet))!.Sheet.Stages.Single(s => s.Station == Station.Imaging);
        Assert.Equal((StageState.Done, "mask was written on the other imager by hand"), (stage.State, stage.SkippedBecause));
        await using var db = room.CreateDbContext();
        Assert.Equal(new { Kind = StageDecisionKind.Skip, By = "Lead" }, await db.StageDecisions.Select(d => new { d.Kind, d.By }).SingleAsync());
        Assert.Equal(1, await db.AuditEntries.CountAsync(a => a.Record == nameof(StageDecision)));
    }

    [Fact]
    public async Task Repeat_DoesTheStageAndWhatCameAfterAgain_AndKeepsWhatWasLost()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        foreach (var (_, machine) in RoomFixture.SolventRoute[..5])
        {
            await room.PassAsync(sheet, machine);
        }

        var told = await room.Stages.RepeatAsync(sheet, Station.Washout, "scum on the floor", "Lead");
        Assert.Equal($"Sheet {TrackingNumber.ForPeople(sheet)} goes through washout again, and after it drying.", told);
        await room.Plans.ReplanAsync();
        foreach (var (_, machine) in RoomFixture.SolventRoute[3..])
        {
            await room.PassAsync(sheet, machine);
        }

        var done = (await room.Sheets.FindAsync(sheet))!.Sheet;
        Assert.Equal(SheetState.Done, done.State);
        Assert.Equal(1, done.Stages.Single(s => s.Station == Station.Drying).Repeats);
        await using var db = room.CreateDbContext();
        Assert.True((await db.StageDecisions.SingleAsync()).LostSeconds > 5400);
        // Every scan of the first time is still there: 5 stages, then 4, each with a start and a finish.
        Assert.Equal(18, await db.Scans.CountAsync());
    }

    [Fact]
    public async Task WhatCannotBe_IsRefusedWithWhatToDo()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        async Task Refused(Func<Task> act, string words) =>
            Assert.Contains(words, (await Assert.ThrowsAsync<PlateRoomException>(act)).Message, StringComparison.Ordinal);
        await Refused(() => room.Stages.RepeatAsync(sheet, Station.Washout, "why not", "Lead"), "has not been done yet");
        await Refused(() => room.Stages.ReleaseAsync(sheet, "Lead"), "is not on hold any more");
        await Refused(() => room.Stages.HoldAsync(sheet, " ", "Ada"), "Say why");
        await room.ScanAsync(sheet, "frame-1");
        await Refused(() => room.Stages.SkipAsync(sheet, "why not", "Lead"), "finish it there first");
        await Refused(() => room.Stages.RepeatAsync(sheet, Station.BackExposure, "why not", "Lead"), "finish it there first");
    }

    [Fact]
    public async Task Hold_ForAReading_AsksAgainWhenReleased()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0];
        await room.Readings.VisualAsync(new(sheet.Number, Station.Cutting, 10), [PlateDefect.Scratch, PlateDefect.Scum], "Ada");
        await room.Stages.HoldAsync(sheet.Number, "lead looks at it", "Ada");
        var held = Assert.Single(await room.Readings.OfSheetAsync(sheet.Id));
        Assert.Equal((ReadingState.OnHold, "Seen: scum, scratch."), (held.State, held.Sentence));
        await room.Stages.ReleaseAsync(sheet.Number, "Lead");
        Assert.Equal(ReadingState.Open, Assert.Single(await room.Readings.OfSheetAsync(sheet.Id)).State);
    }
}
