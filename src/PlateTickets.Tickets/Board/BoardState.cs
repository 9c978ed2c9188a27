using System.Collections.Immutable;
using System.Threading.Channels;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Board;

/// <summary>The board at one moment.</summary>
public sealed record BoardSnapshot(ImmutableDictionary<int, BoardSheet> Sheets)
{
    public static readonly BoardSnapshot Empty = new(ImmutableDictionary<int, BoardSheet>.Empty);
}

/// <summary>
/// One board in memory for all who look at it. After a change only the changed sheets are read again, once for
/// everybody, and every viewer is told which they are.
/// </summary>
public sealed class BoardState : IDisposable
{
    /// <summary>How long a finished sheet is kept: longer than the longest shift, whose board counts it.</summary>
    public static readonly TimeSpan FinishedShownFor = TimeSpan.FromHours(26);

    private readonly IDbContextFactory<PlateRoomDb> _databases;
    private readonly RoomCatalog _rooms;
    private readonly PlanBook _plan;
    private readonly RoomEvents _events;
    private readonly TimeProvider _clock;
    private readonly Channel<SheetsChanged?> _changes = Channel.CreateUnbounded<SheetsChanged?>(new UnboundedChannelOptions { SingleReader = true });
    private volatile BoardSnapshot _now = BoardSnapshot.Empty;

    public BoardState(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, PlanBook plan, RoomEvents events, TimeProvider clock)
    {
        (_databases, _rooms, _plan) = (databases, rooms, plan);
        _events = events;
        _clock = clock;
        _events.Changed += Queue;
    }

    /// <summary>Told after each change, from a background thread, with the ids of the changed sheets.</summary>
    public event Action<IReadOnlyCollection<int>>? Changed;

    public BoardSnapshot Now => _now;

    /// <summary>Reads everything once, then follows the changes until cancelled.</summary>
    public async Task FollowAsync(CancellationToken cancel)
    {
        await ReloadAsync(cancel);
        while (await _changes.Reader.WaitToReadAsync(cancel))
        {
            var ids = new HashSet<int>();
            var all = false;
            while (_changes.Reader.TryRead(out var change))
            {
                all |= change is null;
                ids.UnionWith(change?.SheetIds ?? []);
            }

            await (all ? ReloadAsync(cancel) : RefreshAsync(ids, cancel));
        }
    }

    /// <summary>Nobody knows what changed: whoever follows reads everything anew, in turn with the other changes.</summary>
    public void AskForReload() => _changes.Writer.TryWrite(null);

    public async Task ReloadAsync(CancellationToken cancel = default)
    {
        await using var db = await _databases.CreateDbContextAsync(cancel);
        var sheets = await BoardQueries.OpenAsync(db, _clock.GetUtcNow().UtcDateTime - FinishedShownFor, cancel);
        var room = await _rooms.GetAsync(cancel);
        _now = new BoardSnapshot(sheets.Select(s => WithOutlook(s, room)).ToImmutableDictionary(s => s.Id));
        Changed?.Invoke([.. _now.Sheets.Keys]);
    }

    public void Dispose()
    {
        _events.Changed -= Queue;
        _changes.Writer.TryComplete();
    }

    private void Queue(SheetsChanged change) => _changes.Writer.TryWrite(change);

    private async Task RefreshAsync(HashSet<int> ids, CancellationToken cancel)
    {
        await using var db = await _databases.CreateDbContextAsync(cancel);
        var read = await BoardQueries.ByIdsAsync(db, ids, cancel);
        var sheets = _now.Sheets.ToBuilder();
        var room = await _rooms.GetAsync(cancel);
        foreach (var sheet in read)
        {
            sheets[sheet.Id] = WithOutlook(sheet, room);
        }

        var oldest = _clock.GetUtcNow().UtcDateTime - FinishedShownFor;
        sheets.RemoveRange(sheets.Values.Where(s => !s.IsOpen && (s.DoneUtc is null || s.DoneUtc < oldest)).Select(s => s.Id).ToList());
        _now = new BoardSnapshot(sheets.ToImmutable());
        Changed?.Invoke(ids);
    }

    private BoardSheet WithOutlook(BoardSheet sheet, Room room)
    {
        if (!sheet.IsOpen)
        {
            return sheet;
        }

        var why = sheet.Tickets.Select(t => _plan.Critical(t.Id)).FirstOrDefault(c => c is not null);
        return sheet with
        {
            LateChance = sheet.Tickets.Max(t => _plan.LateChance(t.Id)),
            Why = why is null ? "" : CriticalWords.Say(why, room, late: _plan.IsLate(why.TicketId)),
        };
    }
}
