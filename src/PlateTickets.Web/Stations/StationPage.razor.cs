using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Stations;

/// <summary>
/// One machine's page. Readings and their answers go through js/station.js and the scan endpoint, so that they work without a
/// circuit; this draws what is running, what comes next and the sheet in hand.
/// </summary>
public sealed partial class StationPage
{
    private const int NextShown = 12;
    private static readonly TimeSpan Redraw = TimeSpan.FromSeconds(5);

    private Room? _room;
    private Equipment? _machine;
    private ElementReference _root;
    private DotNetObjectReference<StationPage>? _self;
    private bool _watched;
    private SheetView? _sheet;
    private List<BoardSheet> _running = [];
    private List<NextSheet> _next = [];
    private int _waiting;
    private ITimer? _timer;

    [Parameter]
    public string Slug { get; set; } = "";

    /// <summary>?kiosk=true takes the program's own bar away, for a tablet that shows nothing else.</summary>
    [SupplyParameterFromQuery]
    public bool Kiosk { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required BoardState Board { get; set; }

    [Inject]
    public required DutyDesk Duty { get; set; }

    [Inject]
    public required SheetQueries Sheets { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required IJSRuntime Js { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    private EquipmentDowntime? Down => _room!.DownAt(_machine!.Id, Now);

    /// <summary>Called by the browser when the server has answered a reading of this page.</summary>
    [JSInvokable]
    public async Task Delivered(string sheetNumber, bool accepted)
    {
        _room = await Rooms.GetAsync();
        if (sheetNumber.Length > 0)
        {
            _sheet = await Sheets.FindAsync(sheetNumber);
        }

        StateHasChanged();
    }

    public async ValueTask DisposeAsync()
    {
        Board.Changed -= BoardChanged;
        _timer?.Dispose();
        if (_watched)
        {
            try
            {
                await Js.InvokeVoidAsync("plateRoom.forgetStation", _root);
            }
            catch (JSDisconnectedException)
            {
                // The browser has gone, and its page with it.
            }
        }

        _self?.Dispose();
    }

    protected override void OnInitialized()
    {
        Board.Changed += BoardChanged;
        // The buttons change when a run ends, and that is no event of the room.
        _timer = Clock.CreateTimer(_ => InvokeAsync(StateHasChanged), null, Redraw, Redraw);
    }

    protected override async Task OnParametersSetAsync()
    {
        _room = await Rooms.GetAsync();
        _machine = _room.EquipmentBySlug(Slug);
        if (_machine is null)
        {
            return;
        }

        ReadBoard();
        // After a reload the sheet that runs is in sight again, with its countdown.
        if (_sheet is null && _machine.Kind == EquipmentKind.Single && _running is [var only, ..])
        {
            _sheet = await Sheets.FindAsync(only.Number);
        }
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_watched || _machine is null)
        {
            return;
        }

        _watched = true;
        _self = DotNetObjectReference.Create(this);
        StateHasChanged();
        await Js.InvokeVoidAsync("plateRoom.watchStation", _root, _self);
    }

    private async Task ShowAsync(string number)
    {
        _sheet = await Sheets.FindAsync(number);
        await FocusAsync();
    }

    private async Task TellAsync((bool Good, string Sentence) told)
    {
        await Js.InvokeVoidAsync("plateRoom.tell", told.Good ? "good" : "bad", told.Sentence);
    }

    private async Task LookAgainAsync()
    {
        _room = await Rooms.GetAsync();
        if (_sheet is { } shown)
        {
            _sheet = await Sheets.FindAsync(shown.Sheet.Number);
        }

        await FocusAsync();
    }

    private ValueTask FocusAsync() => Js.InvokeVoidAsync("plateRoom.focusScan");

    /// <summary>Who acts on this page: every scan, reading and decision made here takes it from this one place.</summary>
    private string Who() => Viewer.Name;

    private async Task UpAsync()
    {
        await Duty.SetUpAsync(_machine!.Id, Who());
        _room = await Rooms.GetAsync();
        await FocusAsync();
    }

    private void BoardChanged(IReadOnlyCollection<int> ids) => InvokeAsync(async () =>
    {
        if (_machine is null)
        {
            return;
        }

        var shown = _sheet is { } sheet && ids.Contains(sheet.Sheet.Id) ? sheet.Sheet.Number : null;
        var drawn = (_running, _next, _waiting);
        ReadBoard();
        // A new plan changes stages all over the room; this machine is drawn again only when its own lists look different.
        if (shown is null && _waiting == drawn._waiting && _running.SequenceEqual(drawn._running) && _next.SequenceEqual(drawn._next))
        {
            return;
        }

        _room = await Rooms.GetAsync();
        if (shown is not null)
        {
            _sheet = await Sheets.FindAsync(shown);
        }

        StateHasChanged();
    });

    private void ReadBoard()
    {
        var here = Board.Now.Sheets.Values.Where(s => s.IsOpen && s.Stage?.EquipmentId == _machine!.Id).ToList();
        _running = [.. here.Where(s => s.Stage!.State == StageState.Running).OrderBy(s => s.Stage!.RunEndsUtc)];
        var waiting = here.Where(s => s.State == SheetState.Waiting).OrderBy(s => s.Stage!.PlannedStartUtc).ToList();
        _waiting = waiting.Count;
        _next = NextReasons.Of(waiting, NextShown, _running, _machine!, Board.Now);
    }

    private static string What(BoardSheet sheet) => sheet.Tickets.Count == 0 ? "" : $"{sheet.Tickets[0].Customer}: {sheet.Tickets[0].Title} ({string.Join(", ", sheet.Colours)})";

    // Work by hand ends when the hands are done: its computed time is no alarm.
    private static string? AlarmOf(BoardStage stage) => stage.RunIsAttended ? null : stage.Id.ToString(CultureInfo.InvariantCulture);

    private static string Epoch(DateTime utc) => new DateTimeOffset(utc, TimeSpan.Zero).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);
}
