using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Stations;

/// <summary>One machine's page: scan, see, start, finish.</summary>
public sealed partial class StationPage
{
    private const int NextShown = 12;
    private const string OperatorKey = "operator";
    private static readonly TimeSpan Redraw = TimeSpan.FromSeconds(5);

    private Room? _room;
    private Equipment? _machine;
    private ElementReference _field;
    private DotNetObjectReference<StationPage>? _self;
    private bool _watched;
    private string _operator = "";
    private SheetView? _sheet;
    private ScanReply? _told;
    private bool _busy;
    private int _waiting;
    private ITimer? _timer;

    [Parameter]
    public string Slug { get; set; } = "";

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required BoardState Board { get; set; }

    [Inject]
    public required ScanDesk Desk { get; set; }

    [Inject]
    public required DutyDesk Duty { get; set; }

    [Inject]
    public required SheetQueries Sheets { get; set; }

    [Inject]
    public required BrowserTools Browser { get; set; }

    [Inject]
    public required IJSRuntime Js { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    private string _toldKind => _told is null ? "calm" : _told.Accepted ? "good" : "bad";

    private List<BoardSheet> Running =>
        [.. Board.Now.Sheets.Values.Where(s => s.State == SheetState.Running && s.Stage?.EquipmentId == _machine!.Id).OrderBy(s => s.Stage!.RunEndsUtc)];

    private List<BoardSheet> Next
    {
        get
        {
            var waiting = Board.Now.Sheets.Values.Where(s => s.State == SheetState.Waiting && s.Stage?.EquipmentId == _machine!.Id).ToList();
            _waiting = waiting.Count;
            return [.. waiting.OrderBy(s => s.Stage!.PlannedStartUtc).Take(NextShown)];
        }
    }

    /// <summary>Called by the browser for each reading, with the id that it made for it.</summary>
    [JSInvokable]
    public async Task Scanned(string code, Guid id)
    {
        await RecordAsync(new ScanRequest(id, code, Slug, ScanAction.Next, Who()));
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
                await Js.InvokeVoidAsync("plateRoom.forgetScanField", _field);
            }
            catch (JSDisconnectedException)
            {
                // The browser has gone, and its field with it.
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
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_watched || _machine is null)
        {
            return;
        }

        _watched = true;
        _self = DotNetObjectReference.Create(this);
        await Js.InvokeVoidAsync("plateRoom.watchScanField", _field, _self);
        _operator = await Browser.RecallAsync(OperatorKey);
        StateHasChanged();
    }

    private async Task RecordAsync(ScanRequest request)
    {
        _busy = true;
        StateHasChanged();
        try
        {
            _told = await Desk.RecordAsync(request);
            _room = await Rooms.GetAsync();
            if (_told.SheetNumber is { } number)
            {
                _sheet = await Sheets.FindAsync(number);
            }
        }
        finally
        {
            _busy = false;
        }
    }

    private async Task ActAsync((ScanAction Action, bool Confirmed) act)
    {
        await RecordAsync(new ScanRequest(Guid.NewGuid(), _sheet!.Sheet.Number, Slug, act.Action, Who(), Confirmed: act.Confirmed));
        await _field.FocusAsync();
    }

    private async Task ShowAsync(string number)
    {
        _told = null;
        _sheet = await Sheets.FindAsync(number);
        await _field.FocusAsync();
    }

    private async Task OperatorChanged(ChangeEventArgs e)
    {
        _operator = (e.Value as string ?? "").Trim();
        await Browser.KeepAsync(OperatorKey, _operator);
        await _field.FocusAsync();
    }

    private string Who() => _operator.Length == 0 ? $"at {_machine!.Name}" : _operator;

    private EquipmentDowntime? Down => _room!.DownAt(_machine!.Id, Now);

    private async Task UpAsync()
    {
        await Duty.SetUpAsync(_machine!.Id, Who());
        _room = await Rooms.GetAsync();
        await _field.FocusAsync();
    }

    private void BoardChanged(IReadOnlyCollection<int> ids) => InvokeAsync(async () =>
    {
        _room = await Rooms.GetAsync();
        if (_sheet is { } shown && ids.Contains(shown.Sheet.Id) && !_busy)
        {
            _sheet = await Sheets.FindAsync(shown.Sheet.Number);
        }

        StateHasChanged();
    });

    private static string What(BoardSheet sheet) => $"{sheet.Tickets[0].Customer}: {sheet.Tickets[0].Title} ({string.Join(", ", sheet.Colours)})";

    private static string Epoch(DateTime utc) => new DateTimeOffset(utc, TimeSpan.Zero).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);
}
