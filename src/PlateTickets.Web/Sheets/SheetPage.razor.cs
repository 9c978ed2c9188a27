using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Sheets;

/// <summary>One sheet on a phone or a second screen; it follows its own scans.</summary>
public sealed partial class SheetPage : IDisposable
{
    private SheetView? _view;
    private Room? _room;
    private IReadOnlyList<RemakeLine> _remakes = [];

    [Parameter]
    public string Number { get; set; } = "";

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required SheetQueries Queries { get; set; }

    [Inject]
    public required RemakeDesk Remakes { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required BoardState Board { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DateTime Now => Clock.GetUtcNow().UtcDateTime;

    private Stage? Next => _view!.Sheet.State == SheetState.Cancelled ? null : _view.Sheet.Stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station);

    private string State => _view!.Sheet.State switch
    {
        SheetState.Waiting => $"Waits for {Next!.Station.Title().ToLowerInvariant()}",
        SheetState.Running => $"In {Next!.Station.Title().ToLowerInvariant()}",
        SheetState.OnHold => "On hold",
        SheetState.Done => "Done",
        _ => "Cancelled",
    };

    public void Dispose() => Board.Changed -= BoardChanged;

    protected override void OnInitialized() => Board.Changed += BoardChanged;

    protected override Task OnParametersSetAsync() => ReadAsync();

    private async Task ReadAsync()
    {
        var read = TrackingNumber.Read(Number);
        _view = read.Kind == NumberKind.Sheet ? await Queries.FindAsync(read.Number!) : null;
        _remakes = _view is null ? [] : await Remakes.OfSheetAsync(_view.Sheet.Id);
        _room = await Rooms.GetAsync();
    }

    private void BoardChanged(IReadOnlyCollection<int> ids)
    {
        if (_view is { } view && ids.Contains(view.Sheet.Id))
        {
            InvokeAsync(async () =>
            {
                await ReadAsync();
                StateHasChanged();
            });
        }
    }

    private string Machine(Stage stage) => (_room!.EquipmentById(stage.EquipmentId)?.Name ?? "no machine") + (stage.Drawer is { } drawer ? $", drawer {drawer}" : "");

    private string When(Stage stage) => stage switch
    {
        { State: StageState.Done, SkippedBecause.Length: > 0 } => $"skipped: {stage.SkippedBecause}",
        { State: StageState.Done } => $"done {SiteClock.Near(stage.FinishedUtc!.Value, Now, _room!.Zone)}, {stage.FinishedBy}",
        { State: StageState.Running } => $"since {SiteClock.Near(stage.StartedUtc!.Value, Now, _room!.Zone)}, {stage.StartedBy}; out at {SiteClock.Near(stage.StartedUtc.Value.AddSeconds(stage.LoadSeconds + stage.RunSeconds), Now, _room.Zone)}",
        { PlannedStartUtc: { } start } => $"planned {SiteClock.Near(start, Now, _room!.Zone)}, due-by {(stage.DueByUtc is { } dueBy ? SiteClock.Near(dueBy, Now, _room.Zone) : "–")}{(stage.Repeats > 0 ? ", once more" : "")}",
        _ => "not planned yet",
    };

    private static string Decided(StageReading reading) => reading.State switch
    {
        ReadingState.Accepted => $"Accepted by {reading.DecidedBy}: {reading.Reason}.",
        ReadingState.OnHold => "On hold.",
        ReadingState.Remade => "Made again.",
        ReadingState.Open => "Nobody has decided yet.",
        _ => "",
    };

    private static string Said(StageDecision decision) => decision.Kind switch
    {
        StageDecisionKind.Skip => $"{decision.Station.Title()} skipped",
        StageDecisionKind.Repeat => $"{decision.Station.Title()} repeated ({Durations.ForPeople(decision.LostSeconds)} of work lost)",
        _ => $"Went on to {decision.Station.Title().ToLowerInvariant()} though it lay too long",
    };
}
