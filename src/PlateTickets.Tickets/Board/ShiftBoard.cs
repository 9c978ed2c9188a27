using System.Threading.Channels;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Board;

/// <summary>
/// The shift board in memory: after a change its view is made once for each filter that somebody looks through, and all who look are told.
/// </summary>
public sealed class ShiftBoard : IDisposable
{
    /// <summary>Sheets of a station that are listed; more are only counted.</summary>
    public const int MostSheets = 200;

    // The clock moves words such as "over since" on; the facts beside the sheets are read again at the latest then.
    private static readonly TimeSpan Tick = TimeSpan.FromSeconds(15);

    private readonly IDbContextFactory<PlateRoomDb> _databases;
    private readonly BoardState _board;
    private readonly RoomCatalog _rooms;
    private readonly PlanBook _plan;
    private readonly Remedies _remedies;
    private readonly ShiftGoals _goals;
    private readonly TimeProvider _clock;
    private readonly Channel<bool> _wake = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });
    private readonly Lock _gate = new();
    private readonly Dictionary<BoardFilter, Looked> _views = [];
    private ShiftBoardInputs? _inputs;
    private ShiftFacts? _facts;
    private GoalsOfShift? _shiftGoals;
    private ShiftDay? _goalsOf;

    public ShiftBoard(
        IDbContextFactory<PlateRoomDb> databases, BoardState board, RoomCatalog rooms, PlanBook plan, Remedies remedies, ShiftGoals goals, TimeProvider clock)
    {
        (_databases, _board, _rooms, _plan, _remedies, _goals, _clock) = (databases, board, rooms, plan, remedies, goals, clock);
        _board.Changed += BoardChanged;
        _rooms.Forgotten += Wake;
        _remedies.Changed += Wake;
    }

    /// <summary>Told after each change, from a background thread, once for all filters.</summary>
    public event Action? Changed;

    /// <summary>True once the board was read.</summary>
    public bool IsRead => _inputs is not null;

    /// <summary>Follows the changes until cancelled.</summary>
    public async Task FollowAsync(CancellationToken cancel)
    {
        using var timer = _clock.CreateTimer(_ => Wake(), null, Tick, Tick);
        Wake();
        while (await _wake.Reader.WaitToReadAsync(cancel))
        {
            _wake.Reader.TryRead(out _);
            await RefreshAsync(cancel);
        }
    }

    /// <summary>Makes the views anew, then reads what stands beside the sheets and, where that changed, makes them once more.</summary>
    public async Task RefreshAsync(CancellationToken cancel = default)
    {
        var room = await _rooms.GetAsync(cancel);
        if (_facts is { } known)
        {
            // A scan is shown at once; it need not wait for remakes and step tests.
            await ShowAsync(room, known, cancel);
        }

        ShiftFacts facts;
        await using (var db = await _databases.CreateDbContextAsync(cancel))
        {
            facts = await ShiftFacts.ReadAsync(db, room, _clock.GetUtcNow().UtcDateTime, cancel);
        }

        if (_facts is not { } before || !facts.Remakes.SequenceEqual(before.Remakes) || !facts.StepTests.SequenceEqual(before.StepTests))
        {
            _facts = facts;
            await ShowAsync(room, facts, cancel);
        }
    }

    /// <summary>Looks through a filter until disposed of. Whoever looks through the same one shares the view.</summary>
    public BoardLook Look(BoardFilter filter)
    {
        lock (_gate)
        {
            if (!_views.TryGetValue(filter, out var looked))
            {
                _views[filter] = looked = new Looked();
            }

            looked.Viewers++;
            if (looked.View is null && _inputs is { } inputs)
            {
                looked.View = ShiftBoardMaker.Make(inputs, filter, null);
            }
        }

        return new BoardLook(this, filter);
    }

    /// <summary>The shift at work, or the next one; null when none comes within a week.</summary>
    public static ShiftDay? ShiftNow(Room room, DateTime nowUtc)
    {
        var shifts = room.ShiftsBetween(nowUtc.AddDays(-1), nowUtc.AddDays(8));
        return ShiftDays.At(shifts, nowUtc) ?? shifts.FirstOrDefault(s => s.StartUtc > nowUtc);
    }

    public void Dispose()
    {
        _board.Changed -= BoardChanged;
        _rooms.Forgotten -= Wake;
        _remedies.Changed -= Wake;
        _wake.Writer.TryComplete();
    }

    internal ShiftBoardView? ViewOf(BoardFilter filter)
    {
        lock (_gate)
        {
            return _views.GetValueOrDefault(filter)?.View;
        }
    }

    internal void LookAway(BoardFilter filter)
    {
        lock (_gate)
        {
            if (_views.TryGetValue(filter, out var looked) && --looked.Viewers == 0)
            {
                _views.Remove(filter);
            }
        }
    }

    private async Task ShowAsync(Room room, ShiftFacts facts, CancellationToken cancel)
    {
        var now = _clock.GetUtcNow().UtcDateTime;
        var shift = ShiftNow(room, now);
        var inputs = new ShiftBoardInputs(_board.Now, room, _plan, _remedies.Now, facts, shift, await GoalsAsync(shift, now, cancel), now);
        lock (_gate)
        {
            _inputs = inputs;
            foreach (var (filter, looked) in _views)
            {
                looked.View = ShiftBoardMaker.Make(inputs, filter, looked.View);
            }
        }

        Changed?.Invoke();
    }

    // The goals are taken with the first plan of the shift; until then there are none.
    private async Task<GoalsOfShift?> GoalsAsync(ShiftDay? shift, DateTime nowUtc, CancellationToken cancel)
    {
        if (shift is null || nowUtc < shift.StartUtc)
        {
            return null;
        }

        if (_goalsOf != shift)
        {
            (_goalsOf, _shiftGoals) = (shift, await _goals.FindAsync(shift, cancel));
        }

        return _shiftGoals ??= _plan.Now is null || _board.Now.Sheets.IsEmpty ? null : await _goals.TakeAsync(shift, ShiftBoardMaker.Expected(_board.Now, shift), cancel);
    }

    private void BoardChanged(IReadOnlyCollection<int> ids) => Wake();

    private void Wake() => _wake.Writer.TryWrite(true);

    private sealed class Looked
    {
        public int Viewers { get; set; }

        public ShiftBoardView? View { get; set; }
    }
}

/// <summary>One viewer's look at the board.</summary>
public sealed class BoardLook(ShiftBoard board, BoardFilter filter) : IDisposable
{
    private bool _away;

    public BoardFilter Filter => filter;

    /// <summary>What is to be seen now; null until the board was read.</summary>
    public ShiftBoardView? View => board.ViewOf(filter);

    public void Dispose()
    {
        if (!_away)
        {
            _away = true;
            board.LookAway(filter);
        }
    }
}
