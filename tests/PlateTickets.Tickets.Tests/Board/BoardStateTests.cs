using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Board;

public class BoardStateTests
{
    [Fact]
    public async Task Scan_ChangesOnlyItsSheet_AndTellsWhich()
    {
        await using var room = await RoomFixture.CreateAsync();
        var first = (await room.OrderAsync(["Cyan"])).Sheets[0];
        var second = (await room.OrderAsync(["Black"])).Sheets[0];
        using var stop = new CancellationTokenSource();
        var following = room.Board.FollowAsync(stop.Token);
        await UntilAsync(() => room.Board.Now.Sheets.Count == 2);
        // What the orders told of is over when a sheet that nobody has was told of.
        var quiet = new TaskCompletionSource();
        room.Board.Changed += ids => _ = ids.Contains(4711) && quiet.TrySetResult();
        room.Events.TellChanged(4711);
        await quiet.Task.WaitAsync(TimeSpan.FromSeconds(5));
        var untouched = room.Board.Now.Sheets[second.Id];
        var told = new TaskCompletionSource<IReadOnlyCollection<int>>();
        room.Board.Changed += ids => told.TrySetResult(ids);

        await room.ScanAsync(first.Number, "frame-1");
        Assert.Equal([first.Id], await told.Task.WaitAsync(TimeSpan.FromSeconds(5)));
        Assert.Equal(SheetState.Running, room.Board.Now.Sheets[first.Id].State);
        Assert.Same(untouched, room.Board.Now.Sheets[second.Id]);

        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => following);
    }

    [Fact]
    public async Task Board_AfterEveryScan_EqualsTheBoardReadAnew()
    {
        await using var room = await RoomFixture.CreateAsync(played: true);
        using var stop = new CancellationTokenSource();
        var following = room.Board.FollowAsync(stop.Token);
        await UntilAsync(() => room.Board.Now.Sheets.Count > 0);
        var running = room.Board.Now.Sheets.Values.Where(s => s.State == SheetState.Running).ToList();
        Assert.NotEmpty(running);
        var catalog = await room.Rooms.GetAsync();
        foreach (var sheet in running)
        {
            await room.ScanAsync(sheet.Number, catalog.EquipmentById(sheet.Stage!.EquipmentId)!.Slug, ScanAction.Finish, confirmed: true);
        }

        await UntilAsync(() => running.All(s => room.Board.Now.Sheets[s.Id].Stage?.Station != s.Stage!.Station));
        using var fresh = new BoardState(room, room.Rooms, room.Book, new RoomEvents(), room.Clock);
        await fresh.ReloadAsync();
        Assert.Equal(Lines(fresh), Lines(room.Board));
        await stop.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => following);
    }

    [Theory]
    [InlineData(-1, Lateness.Late)]
    [InlineData(1, Lateness.AtRisk)]
    [InlineData(59, Lateness.AtRisk)]
    [InlineData(60, Lateness.OnTime)]
    public void Lateness_FollowsTheSlack(int minutes, Lateness expected)
    {
        var now = new DateTime(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);
        var due = now.AddHours(6);
        Assert.Equal(expected, LatenessRules.Of(due, due.AddMinutes(-minutes), due, now));
    }

    [Fact]
    public void Lateness_PastDue_IsLateWhateverThePlanSays()
    {
        var now = new DateTime(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);
        Assert.Equal(Lateness.Late, LatenessRules.Of(now.AddMinutes(-1), null, null, now));
    }

    private static IEnumerable<string> Lines(BoardState board) => board.Now.Sheets.Values.OrderBy(s => s.Id)
        .Select(s => $"{s.Number} {s.State} {s.Stage?.Station} {s.Stage?.State} {s.Stage?.EquipmentId} {string.Join(',', s.Colours)} {s.DueUtc:O}");

    private static async Task UntilAsync(Func<bool> done)
    {
        for (var i = 0; i < 500 && !done(); i++)
        {
            await Task.Delay(10);
        }

        Assert.True(done(), "It did not come to be within five seconds.");
    }
}
