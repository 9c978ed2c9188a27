using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Stations;

/// <summary>Scans that came while somebody else wrote are recorded together: each is decided on what the ones before it left, and has its own person.</summary>
public class ScanTurnsTests
{
    [Fact]
    public async Task ScansOfTwoPeople_InOneTurn_AreEachTheirOwn()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var second = (await room.OrderAsync(["Black"])).Sheets[0].Number;
        var (replies, turns) = await TogetherAsync(room, Scan(first, "frame-1", "Ada"), Scan(second, "frame-2", "Ben"), Scan("S0000", "frame-1", "Cleo"));
        Assert.Equal([ScanOutcome.Started, ScanOutcome.Started, ScanOutcome.NotANumber], replies.Select(r => r.Outcome));
        Assert.Equal(2, Assert.Single(turns).Count);
        await using var db = room.CreateDbContext();
        foreach (var (reply, by) in replies.Zip(["Ada", "Ben"]))
        {
            Assert.Equal(by, (await db.Scans.SingleAsync(s => s.Id == reply.Id)).By);
            Assert.Equal(by, (await db.Stages.SingleAsync(s => s.SheetId == reply.SheetId && s.State == StageState.Running)).StartedBy);
            var ticket = await db.Placements.Where(p => p.SheetId == reply.SheetId).Select(p => p.Plate!.Ticket!.Order!.Number).FirstAsync();
            Assert.Equal(by, (await db.AuditEntries.SingleAsync(e => e.Record == "Ticket" && e.Key == ticket && e.To == "InWork")).By);
        }
    }

    [Fact]
    public async Task TwoSheetsForOneMachine_InOneTurn_OnlyTheFirstStarts()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var second = (await room.OrderAsync(["Black"])).Sheets[0].Number;
        var (replies, _) = await TogetherAsync(room, Scan(first, "frame-1"), Scan(second, "frame-1"));
        Assert.Equal([ScanOutcome.Started, ScanOutcome.MachineBusy], replies.Select(r => r.Outcome));
        Assert.Contains($"still holds sheet {TrackingNumber.ForPeople(first)}, started at 08:00", replies[1].Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public async Task OutAndInAgain_InOneTurn_FindsTheMachineEmpty()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var second = (await room.OrderAsync(["Black"])).Sheets[0].Number;
        await room.ScanAsync(first, "frame-1");
        var (replies, turns) = await TogetherAsync(room, Scan(first, "frame-1") with { Action = ScanAction.Finish, Confirmed = true }, Scan(second, "frame-1"));
        Assert.Equal([ScanOutcome.Finished, ScanOutcome.Started], replies.Select(r => r.Outcome));
        Assert.Equal(2, Assert.Single(turns).Count);
    }

    [Fact]
    public async Task SameSheetTwice_TakesTwoTurns_AndTheSecondSeesTheFirst()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        var (replies, turns) = await TogetherAsync(room, Scan(sheet, "frame-1"), Scan(sheet, "frame-2"), Scan(sheet, "frame-1") with { Action = ScanAction.Finish, Confirmed = true });
        Assert.Equal([ScanOutcome.Started, ScanOutcome.WrongStation, ScanOutcome.Finished], replies.Select(r => r.Outcome));
        Assert.Equal(2, turns.Count);
    }

    [Fact]
    public async Task LastTwoSheetsOfATicket_InOneTurn_CompleteItOnce()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Magenta", "Yellow", "Black", "White"], acrossMm: 560, aroundMm: 549);
        var sheets = ticket.Sheets.Select(s => s.Number).ToList();
        Assert.True(sheets.Count > 1);
        foreach (var sheet in sheets)
        {
            foreach (var (_, machine) in RoomFixture.SolventRoute.Where(s => s.Station != Station.Cutting))
            {
                await room.PassAsync(sheet, machine);
            }
        }

        foreach (var earlier in sheets.SkipLast(2))
        {
            await room.PassAsync(earlier, "cutting-table");
        }

        // One table takes one sheet: they are both on it only as far as the records go.
        var last = sheets[^2..];
        await room.ScanAsync(last[0], "cutting-table");
        await using (var db = room.CreateDbContext())
        {
            var running = await db.Stages.SingleAsync(s => s.State == StageState.Running);
            var stage = await db.Stages.Include(s => s.Sheet).SingleAsync(s => s.Sheet!.Number == last[1] && s.Station == Station.Cutting);
            (stage.State, stage.StartedUtc, stage.EquipmentId, stage.RunIsAttended) = (StageState.Running, running.StartedUtc, running.EquipmentId, true);
            stage.Sheet!.State = SheetState.Running;
            await db.SaveChangesAsync();
        }

        room.Clock.Advance(TimeSpan.FromMinutes(10));
        var (replies, turns) = await TogetherAsync(room, Scan(last[0], "cutting-table", "Ada"), Scan(last[1], "cutting-table", "Ben"));
        Assert.Equal(2, Assert.Single(turns).Count);
        Assert.Contains("still waits for 1 more sheet", replies[0].Sentence, StringComparison.Ordinal);
        Assert.Contains("is complete", replies[1].Sentence, StringComparison.Ordinal);
        var done = (await room.Orders.FindAsync(ticket.Order.Number))!;
        Assert.Equal(TicketState.Done, done.Ticket.State);
        await using var after = room.CreateDbContext();
        Assert.Equal("Ben", (await after.AuditEntries.SingleAsync(e => e.Record == "Ticket" && e.To == "Done")).By);
        Assert.Equal("Ben", (await after.TicketEvents.SingleAsync(e => e.Kind == TicketEventKind.Finished)).By);
    }

    [Fact]
    public async Task GivenUpBeforeItsTurn_IsNotRecorded()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        using var impatient = new CancellationTokenSource();
        Task<ScanReply> gone;
        Task<ScanReply> stays;
        await using (var db = room.CreateDbContext())
        {
            await using var writer = await db.BeginWriteAsync();
            gone = room.Desk.RecordAsync(Scan(sheet, "frame-1"), impatient.Token);
            stays = room.Desk.RecordAsync(Scan(sheet, "frame-2"));
            await impatient.CancelAsync();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => gone);
        }

        Assert.Equal(ScanOutcome.Started, (await stays).Outcome);
        await using var after = room.CreateDbContext();
        Assert.Equal(1, await after.Scans.CountAsync());
    }

    [Fact]
    public async Task WhatFailsTogether_IsTriedOneByOne_AndOnlyTheBadOneFails()
    {
        var (recorded, sizes) = (new List<string>(), new List<int>());
        void Record(Func<IReadOnlyList<WaitingScan>> take)
        {
            var scans = take();
            sizes.Add(scans.Count);
            if (scans.Any(s => s.Request.By == "Bad"))
            {
                throw new InvalidOperationException("broken");
            }

            foreach (var scan in scans)
            {
                recorded.Add(scan.Request.By);
                scan.Answer(new ScanReply(scan.Request.Id, ScanOutcome.Started, "", null, null, false));
            }
        }

        var replies = await AllAsync(Record, "Ada", "Bad", "Ben");
        Assert.Equal(["broken"], replies.Select(r => r.Exception?.InnerException?.Message).OfType<string>());
        Assert.Equal(["Ada", "Ben"], recorded);
        Assert.Equal([3, 1, 1, 1], sizes);
    }

    [Fact]
    public async Task WhenNobodyCanWrite_AllAreToldAtOnce()
    {
        var tries = 0;
        void Record(Func<IReadOnlyList<WaitingScan>> take)
        {
            tries++;
            throw new DbUpdateException("away", new Microsoft.Data.Sqlite.SqliteException("disk I/O error", 10));
        }

        var replies = await AllAsync(Record, "Ada", "Ben", "Cleo");
        Assert.All(replies, r => Assert.True(r.IsFaulted));
        Assert.Equal(1, tries);
    }

    [Fact]
    public async Task AnotherWriterWasFaster_IsTriedAgain_ButNotForEver()
    {
        var tries = 0;
        void Record(Func<IReadOnlyList<WaitingScan>> take)
        {
            take();
            tries++;
            throw new DbUpdateConcurrencyException();
        }

        var reply = Assert.Single(await AllAsync(Record, "Ada"));
        Assert.IsType<DbUpdateConcurrencyException>(reply.Exception?.InnerException);
        Assert.Equal(6, tries);
    }

    /// <summary>Scans that all came before the first of them could be written. Also the sheets that were told to have changed, turn by turn.</summary>
    private static async Task<(ScanReply[] Replies, List<IReadOnlyCollection<int>> Turns)> TogetherAsync(RoomFixture room, params ScanRequest[] scans)
    {
        var turns = new List<IReadOnlyCollection<int>>();
        void Told(SheetsChanged changed) => turns.Add(changed.SheetIds);
        List<Task<ScanReply>> waiting;
        await room.Rooms.GetAsync();
        await using (var db = room.CreateDbContext())
        {
            await using var writer = await db.BeginWriteAsync();
            room.Events.Changed += Told;
            waiting = [.. scans.Select(s => room.Desk.RecordAsync(s))];
            Assert.DoesNotContain(waiting, w => w.IsCompleted);
        }

        var replies = await Task.WhenAll(waiting);
        room.Events.Changed -= Told;
        return (replies, turns);
    }

    /// <summary>Turns whose writer may write only when all have come.</summary>
    private static async Task<Task<ScanReply>[]> AllAsync(Action<Func<IReadOnlyList<WaitingScan>>> record, params string[] people)
    {
        var come = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        var turns = new ScanTurns(async take =>
        {
            await come.Task;
            record(take);
        });
        var waiting = people.Select(p => turns.WaitAsync(new WaitingScan(Scan("S0000", "frame-1", p), null!, null!, 0, CancellationToken.None))).ToArray();
        come.SetResult();
        await Task.WhenAll(waiting.Select(w => w.ContinueWith(_ => { }, TaskScheduler.Default)));
        return waiting;
    }

    private static ScanRequest Scan(string sheet, string machine, string by = "Test operator") =>
        new(Guid.NewGuid(), sheet, machine, ScanAction.Next, by) { Ticked = CheckLists.All };
}
