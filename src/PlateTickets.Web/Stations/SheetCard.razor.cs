using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Stations;

public sealed partial class SheetCard
{
    private Stage? _stage;
    private StageTime? _time;
    private string? _refusal;
    private WashoutProcess _process;
    private bool _here;
    private bool _askEarly;

    [Parameter, EditorRequired]
    public required SheetView View { get; set; }

    [Parameter, EditorRequired]
    public required Equipment Machine { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    [Parameter, EditorRequired]
    public DateTime NowUtc { get; set; }

    [Parameter]
    public bool Busy { get; set; }

    /// <summary>What the person pressed, and whether they confirmed that a time is not over.</summary>
    [Parameter, EditorRequired]
    public EventCallback<(ScanAction Action, bool Confirmed)> Act { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    private DateTime RunEnds => _stage!.StartedUtc!.Value.AddSeconds(_stage.LoadSeconds + _stage.RunSeconds);

    private bool Resting => PlanInput.Ready(View.Sheet, DateTime.MinValue) > NowUtc;

    /// <summary>The sentence when the sheet has lain longer than its recipe allows after the stage before, or null.</summary>
    private string? Waited
    {
        get
        {
            if (_stage is not { State: StageState.Waiting } || View.Sheet.Stages.Where(s => s.State == StageState.Done).MaxBy(s => s.Station) is not { } last)
            {
                return null;
            }

            var limit = Room.Revisions[View.Sheet.RecipeRevisionId].Settings.HandlingAt(last.Station)?.LongestWaitAfterSeconds;
            var lain = (NowUtc - last.FinishedUtc!.Value).TotalSeconds;
            return lain > limit
                ? $"Since {last.Station.Title().ToLowerInvariant()} this sheet has lain {Durations.ForPeople(lain)}; its recipe allows {Durations.ForPeople(limit.Value)}. Ask the lead before going on."
                : null;
        }
    }

    private string Size => $"{Viewer.Units.Size(View.Sheet.WidthUm / 1000.0, View.Sheet.LengthUm / 1000.0)}, recipe revision {View.Sheet.RecipeRevision!.Number}";

    protected override void OnParametersSet()
    {
        var before = _stage;
        _stage = View.Sheet.Stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station);
        var recipe = Room.Revisions[View.Sheet.RecipeRevisionId].Settings;
        _process = recipe.Washout.Process;
        _here = _stage is not null && (_stage.State == StageState.Running ? _stage.EquipmentId == Machine.Id : Room.CanDo(Machine, _stage.Station, recipe));
        (_time, _refusal) = _here ? StageTiming.TryCompute(Room, View.Sheet, _stage!.Station, Machine, NowUtc, Viewer.Units) : (null, null);
        if (before?.Id != _stage?.Id || before?.State != _stage?.State)
        {
            _askEarly = false;
        }
    }

    private Task EarlyAsync()
    {
        _askEarly = false;
        return Act.InvokeAsync((ScanAction.Finish, true));
    }

    private IEnumerable<string> Colours(Order order) =>
        View.Sheet.Placements.Where(p => p.Plate!.TicketId == order.Id).Select(p => p.Plate!.Separation!.Colour).Distinct();

    private string Position(Order order) => View.SetPosition[order.Id] is { Count: > 1 } set ? $", sheet {set.Position} of {set.Count}" : "";

    private static string Epoch(DateTime utc) => new DateTimeOffset(utc, TimeSpan.Zero).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);
}
