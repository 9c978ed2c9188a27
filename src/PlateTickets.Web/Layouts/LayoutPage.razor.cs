using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Layouts;

/// <summary>Plates that wait, sheets that are proposed for them, and a person who knows better.</summary>
public sealed partial class LayoutPage : IAsyncDisposable
{
    private const long StepUm = 10_000;
    private const long FineStepUm = 1_000;

    private static readonly LayoutFigures Nothing = new(0, 0, 0, 0, 0);

    private readonly Dictionary<int, int> _marks = [];
    private ElementReference _root;
    private DotNetObjectReference<LayoutPage>? _self;
    private Room? _room;
    private IReadOnlyList<WaitingMaterial>? _materials;
    private IReadOnlyList<ReleasedLayout> _lately = [];
    private int _materialId;
    private LayoutDraft? _draft;
    private DraftCheck _check = new([], []);
    private LayoutFigures _now = Nothing;
    private LayoutFigures _proposed = Nothing;
    private int? _chosen;
    private int _choice;
    private int? _releasedId;
    private string _copies = nameof(CopyRule.Any);
    private int _hoursApart;
    private bool _releasing;
    private string _told = "";
    private string _refusal = "";

    [SupplyParameterFromQuery(Name = "material")]
    public int? Material { get; set; }

    [Inject]
    public required LayoutDesk Desk { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required IJSRuntime Js { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    private LayoutWishes Wishes => new(Enum.Parse<CopyRule>(_copies), _hoursApart == 0 ? null : _hoursApart);

    private bool CanRelease => _draft is { Now.Sheets.IsEmpty: false } && _check.AllGood;

    private string ReleaseText => _releasing ? "Releasing …" : _draft is { } draft && draft.Now.Sheets.Count > 0 ? $"Release {Sheets(draft.Now.Sheets.Count)}" : "Release";

    public async ValueTask DisposeAsync()
    {
        if (_self is not null)
        {
            try
            {
                await Js.InvokeVoidAsync("plateRoom.forgetLayout", _root);
            }
            catch (JSDisconnectedException)
            {
                // The browser has gone, and its listeners with it.
            }

            _self.Dispose();
        }
    }

    /// <summary>The browser: a plate was clicked.</summary>
    [JSInvokable]
    public void Choose(int plate)
    {
        _chosen = _chosen == plate ? null : plate;
        StateHasChanged();
    }

    /// <summary>The browser: a plate was dropped with its corner at a place of a sheet; mm.</summary>
    [JSInvokable]
    public void Drop(int plate, int sheet, double xMm, double yMm)
    {
        if (_draft is { } draft && draft.Knows(plate) && double.IsFinite(xMm) && double.IsFinite(yMm) && Math.Abs(xMm) < 1e6 && Math.Abs(yMm) < 1e6)
        {
            _chosen = plate;
            Do(() => draft.Put(plate, sheet, (long)Math.Round(xMm * 1000), (long)Math.Round(yMm * 1000)));
        }
    }

    /// <summary>The browser: a plate was dropped onto the list.</summary>
    [JSInvokable]
    public void TakeOff(int plate)
    {
        if (_draft is { } draft)
        {
            Do(() => draft.TakeOff(plate));
        }
    }

    [JSInvokable]
    public void UndoKey(bool redo)
    {
        if (_draft is { } draft)
        {
            Do(redo ? draft.Redo : draft.Undo);
        }
    }

    /// <summary>The browser: a key on a plate.</summary>
    [JSInvokable]
    public void Key(int plate, string key, bool shift)
    {
        if (_draft is not { } draft || !draft.Knows(plate))
        {
            return;
        }

        var step = shift ? FineStepUm : StepUm;
        switch (key)
        {
            case "ArrowLeft":
                Do(() => draft.Nudge(plate, -step, 0));
                break;
            case "ArrowRight":
                Do(() => draft.Nudge(plate, step, 0));
                break;
            case "ArrowUp":
                Do(() => draft.Nudge(plate, 0, -step));
                break;
            case "ArrowDown":
                Do(() => draft.Nudge(plate, 0, step));
                break;
            case "PageDown":
                ToNextSheet(plate, 1);
                break;
            case "PageUp":
                ToNextSheet(plate, -1);
                break;
            case "t" or "T":
                Do(() => draft.Turn(plate, shift));
                break;
            case "l" or "L":
                Do(() => draft.ToggleLock(plate));
                break;
            case "Delete" or "Backspace":
                Do(() => draft.TakeOff(plate));
                break;
            default:
                Choose(plate);
                break;
        }
    }

    protected override async Task OnParametersSetAsync()
    {
        _room = await Rooms.GetAsync();
        if (_materials is null || (Material is { } asked && asked != _materialId))
        {
            (_told, _refusal, _releasedId) = ("", "", null);
            await ReadAsync();
        }
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender)
        {
            _self = DotNetObjectReference.Create(this);
            await Js.InvokeVoidAsync("plateRoom.watchLayout", _root, _self);
        }
    }

    private Task StartAnewAsync()
    {
        (_told, _refusal, _releasedId) = ("", "", null);
        return ReadAsync(_materialId);
    }

    private async Task ReadAsync(int? stayAt = null)
    {
        _materials = await Desk.MaterialsAsync();
        _materialId = stayAt is { } same and not 0 ? same : Material is { } asked && _room!.Materials.ContainsKey(asked) ? asked : _materials.Count > 0 ? _materials.MinBy(m => m.FirstDueUtc)!.MaterialId : 0;
        _lately = _materialId == 0 ? [] : await Desk.LatelyAsync(_materialId);
        (_draft, _chosen, _choice) = (null, null, 0);
        _marks.Clear();
        var waiting = _materialId == 0 ? [] : await Desk.WaitingAsync(_materialId);
        if (waiting.Count == 0)
        {
            return;
        }

        foreach (var (index, plate) in waiting.Index())
        {
            _marks[plate.PlateId] = index + 1;
        }

        var draft = new LayoutDraft(_room!, await Desk.ShelfAsync(_materialId, waiting.Count), waiting);
        await ProposeAsync(draft);
    }

    private Task ProposeAsync() => ProposeAsync(_draft!);

    private async Task ProposeAsync(LayoutDraft draft)
    {
        // Some tens of milliseconds: not on the circuit's own time.
        var wishes = Wishes;
        var proposal = await Task.Run(() => draft.Proposal(wishes));
        draft.Take(proposal, wishes);
        _draft = draft;
        Look();
        _proposed = _now;
    }

    private void Do(Action step)
    {
        step();
        (_told, _refusal) = ("", "");
        Look();
        StateHasChanged();
    }

    private void Look()
    {
        _check = DraftCheck.Of(_draft!, _room!);
        _now = Figures(_draft!.Now.Sheets.Select(s => s.Nested));
    }

    private void ToNextSheet(int plate, int by)
    {
        var draft = _draft!;
        var (at, count) = (draft.Now.SheetOf(plate), draft.Now.Sheets.Count);
        var first = at < 0 ? 0 : at + by;
        for (var tried = 0; tried < count; tried++)
        {
            var sheet = (((first + (tried * by)) % count) + count) % count;
            if (sheet != at && draft.PutWhereFree(plate, sheet))
            {
                _chosen = plate;
                Do(() => { });
                return;
            }
        }

        _refusal = $"Plate {Mark(plate)} fits on no other sheet of this layout: add a sheet for it.";
        StateHasChanged();
    }

    private async Task ReleaseAsync()
    {
        _releasing = true;
        try
        {
            var sheets = _draft!.Now.Sheets.ConvertAll(s => s.Nested);
            var numbers = await Desk.ReleaseAsync(_materialId, sheets, _draft.Shelf, Viewer.Name);
            await ReadAsync(_materialId);
            _told = $"Released {Sheets(numbers.Count)}: they are planned in a moment.";
            _releasedId = _lately.Count > 0 ? _lately[0].Id : null;
            _refusal = "";
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
        finally
        {
            _releasing = false;
        }
    }

    private async Task UndoReleaseAsync(ReleasedLayout layout)
    {
        try
        {
            await Desk.UndoAsync(layout.Id, Viewer.Name);
            await ReadAsync(_materialId);
            (_told, _refusal, _releasedId) = ("The release is undone: its plates wait again, its sheets lie on the shelf. Throw its printed travelers away.", "", null);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
            _lately = await Desk.LatelyAsync(_materialId);
        }
    }

    private LayoutFigures Figures(IEnumerable<NestSheet> sheets) => LayoutFigures.Of(sheets, _room!, _materialId, IsCounted, Now);

    private bool IsCounted(int choice) => _draft!.Shelf.Choices[choice].IsCounted;

    private RemnantCut? CutOf(DraftSheet sheet) => _draft!.Shelf.CutOf(_room!, sheet.Nested);

    private int Mark(int plate) => _marks.GetValueOrDefault(plate);

    private string Laid(int plate, int sheet) => (sheet >= 0 ? "laid" : "loose") + (_chosen == plate ? " chosen" : "");

    private string From(DraftSheet sheet) => _draft!.Shelf.Choices[sheet.Choice] switch
    {
        { Remnant: { } remnant } => $"remnant {remnant.Mark}{(remnant.Lot.Length > 0 ? $", lot {remnant.Lot}" : "")}",
        { Lot: { } lot } => $"lot {lot.Lot}",
        _ => "not counted",
    };

    private string ChoiceText(ShelfChoice choice)
    {
        var size = Viewer.Units.Size(choice.Stock.Width / 1000.0, choice.Stock.Length / 1000.0);
        return choice switch
        {
            { Remnant: { } remnant } => $"{size}, remnant {remnant.Mark}",
            { Lot: { } lot } => $"{size}, lot {lot.Lot} ({lot.Sheets} left)",
            _ => size,
        };
    }

    private static string Sheets(int count) => count == 1 ? "1 sheet" : $"{count} sheets";

    private static string Mm(int micrometres) => (micrometres / 1000.0).ToString("0.###", CultureInfo.InvariantCulture);

    private string Area(double m2) => Viewer.Units == LengthSystem.Metric
        ? string.Create(CultureInfo.InvariantCulture, $"{m2:0.00} m²")
        : string.Create(CultureInfo.InvariantCulture, $"{m2 / 0.09290304:0.0} ft²");

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0} %");

    private static string Minutes(double? minutes) => minutes is { } m ? Durations.ForPeople(Math.Round(m) * 60) : "not known";

    private static string? Worse(double? low, double? high) => low is not { } a || high is not { } b || Math.Abs(a - b) < 0.005 * Math.Max(1, a) ? null : b > a ? "worse" : "better";
}
