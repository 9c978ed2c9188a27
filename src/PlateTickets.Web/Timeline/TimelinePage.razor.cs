using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Timeline;

/// <summary>
/// The plan: machines down, time across. A zoom level is drawn once and the browser scrolls in it by itself; a change reads the
/// changed sheets' stages and draws the rows that they touch.
/// </summary>
public sealed partial class TimelinePage
{
    private const int HeadPx = 136;
    private const int UsualWidthPx = 1200;
    private static readonly TimeSpan LeastBetweenDraws = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Tick = TimeSpan.FromSeconds(30);

    private readonly StageBook _stages = new();
    private Room? _room;
    private TimelineScale? _scale;
    private IReadOnlyList<TimelineRowModel> _rows = [];
    private HashSet<int> _found = [];
    private string _text = "";
    private DateTime _now;
    private DateTime _lastFinish;
    private int _zoom = 1;
    private double _widthPx = UsualWidthPx;
    private int _late;
    private int _risk;
    private int _open;
    private int _onHold;
    private ElementReference _root;
    private ElementReference _scroller;
    private DotNetObjectReference<TimelinePage>? _self;
    private bool _watched;
    private Task _loading = Task.CompletedTask;
    private ChangeCollector? _changes;
    private ITimer? _timer;

    [Inject]
    public required BoardState Board { get; set; }

    [Inject]
    public required TimelineQueries Queries { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    [Inject]
    public required IJSRuntime Js { get; set; }

    private string FoundText => _text.Trim().Length == 0 ? "" : _found.Count switch
    {
        0 => "No sheet on the timeline matches.",
        1 => "1 sheet matches.",
        var count => $"{count} sheets match.",
    };

    /// <summary>Called by the browser when the window got another width.</summary>
    [JSInvokable]
    public void Resized(double widthPx)
    {
        _widthPx = widthPx;
        DrawAll();
        StateHasChanged();
    }

    public async ValueTask DisposeAsync()
    {
        Board.Changed -= BoardChanged;
        _changes?.Dispose();
        _timer?.Dispose();
        if (_watched)
        {
            try
            {
                await Js.InvokeVoidAsync("plateRoom.forgetTimeline", _scroller);
            }
            catch (JSDisconnectedException)
            {
                // The browser has gone, and the drawing with it.
            }
        }

        _self?.Dispose();
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            var width = await Js.InvokeAsync<double>("plateRoom.widthOf", _root);
            _widthPx = width > 0 ? width : UsualWidthPx;
            _loading = LoadAsync();
            await _loading;
            StateHasChanged();
            return;
        }

        var hasBars = _rows.Any(r => r.Bars.Count > 0);
        if (!hasBars)
        {
            // The drawing has left the page; another one comes with the next bar.
            _watched = false;
        }
        else if (!_watched)
        {
            _watched = true;
            _self ??= DotNetObjectReference.Create(this);
            await Js.InvokeVoidAsync("plateRoom.watchTimeline", _scroller, _self, HeadPx);
        }
    }

    private async Task LoadAsync()
    {
        // Followed before the first reading: no change may fall between the two.
        _changes = new ChangeCollector(Clock, LeastBetweenDraws, ids => InvokeAsync(() => TakeChangesAsync(ids)));
        Board.Changed += BoardChanged;
        _timer = Clock.CreateTimer(_ => _changes.Add([]), null, Tick, Tick);
        _stages.Put([], await Queries.AllAsync());
        _room = await Rooms.GetAsync();
        DrawAll();
    }

    private void BoardChanged(IReadOnlyCollection<int> ids) => _changes?.Add(ids);

    /// <summary>Without ids only the time has gone on.</summary>
    private async Task TakeChangesAsync(IReadOnlyCollection<int> ids)
    {
        try
        {
            await _loading;
            var read = ids.Count == 0 ? [] : await Queries.OfSheetsAsync(ids);
            var room = await Rooms.GetAsync();
            var touched = _stages.Put(ids, read);
            var everything = ids.Count == 0 || !ReferenceEquals(room, _room);
            _room = room;
            Draw(everything ? null : touched);
            StateHasChanged();
        }
        catch (Exception e)
        {
            await DispatchExceptionAsync(e);
        }
    }

    private void DrawAll() => Draw(null);

    /// <param name="touched">Which machines may look different; null for all.</param>
    private void Draw(HashSet<int>? touched)
    {
        if (_room is null)
        {
            return;
        }

        _now = Clock.GetUtcNow().UtcDateTime;
        _stages.ForgetFinishedBefore(_now - TimelineQueries.FinishedShownFor);
        var sheets = Board.Now.Sheets;
        Count(sheets.Values);
        _lastFinish = _stages.All.Select(s => s.FinishUtc).DefaultIfEmpty().Max();
        var scale = TimelineScale.For(_stages.All, _now, TimelineZoom.Levels[_zoom].Hours, _widthPx - HeadPx);
        touched = scale == _scale ? touched : null;
        _scale = scale;
        _found = SheetSearch.Find(_stages.All.Select(s => s.SheetId).Distinct().Select(sheets.GetValueOrDefault).OfType<BoardSheet>(), _text);
        var maker = new BarMaker(_room, sheets, scale, _now, _found);
        var byMachine = _stages.All.Where(s => touched?.Contains(s.EquipmentId) != false).ToLookup(s => s.EquipmentId);
        var drawn = _rows.ToDictionary(r => r.MachineId);
        _rows = [.. _room.Equipment.OrderBy(e => e.Serves.DefaultIfEmpty().Min()).ThenBy(e => e.Id).Select(machine => Row(maker, machine, byMachine, touched, drawn.GetValueOrDefault(machine.Id)))];
    }

    /// <summary>The row that was there when it looks the same, so that it is not drawn again.</summary>
    private static TimelineRowModel Row(BarMaker maker, Equipment machine, ILookup<int, TimelineStage> byMachine, HashSet<int>? touched, TimelineRowModel? drawn)
    {
        if (drawn is not null && touched?.Contains(machine.Id) == false)
        {
            return drawn;
        }

        var row = maker.Row(machine, byMachine[machine.Id]);
        return row.LooksLike(drawn) ? drawn! : row;
    }

    private void Count(IEnumerable<BoardSheet> sheets)
    {
        var open = sheets.Where(s => s.IsOpen).ToList();
        _open = open.Count;
        _onHold = open.Count(s => s.State == SheetState.OnHold);
        _late = open.Count(s => LatenessRules.Of(s, _now) == Lateness.Late);
        _risk = open.Count(s => LatenessRules.Of(s, _now) == Lateness.AtRisk);
    }

    private void ZoomTo(int level)
    {
        _zoom = Math.Clamp(level, 0, TimelineZoom.Levels.Count - 1);
        DrawAll();
    }

    private async Task ToNowAsync() => await Js.InvokeVoidAsync("plateRoom.scrollToNow", _scroller);

    private async Task FindAsync(ChangeEventArgs e)
    {
        _text = e.Value as string ?? "";
        DrawAll();
        var first = _rows.SelectMany(r => r.Bars).Where(b => b.Found).OrderBy(b => b.State == StageState.Done).ThenBy(b => b.Shape.X).FirstOrDefault();
        if (first is not null)
        {
            await Js.InvokeVoidAsync("plateRoom.showBar", _scroller, first.StageId);
        }
    }

    private static string Px(double px) => px.ToString("0.#", CultureInfo.InvariantCulture);

    private static string Epoch(DateTime utc) => new DateTimeOffset(utc, TimeSpan.Zero).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);
}
