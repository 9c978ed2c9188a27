using System.Globalization;
using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
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
    private CheckPoint _must;
    private bool _here;
    private bool _askEarly;
    private bool _wrong;

    [Parameter, EditorRequired]
    public required SheetView View { get; set; }

    [Parameter, EditorRequired]
    public required Equipment Machine { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    [Parameter, EditorRequired]
    public DateTime NowUtc { get; set; }

    /// <summary>Who acts, from the page.</summary>
    [Parameter, EditorRequired]
    public required string By { get; set; }

    /// <summary>What is to be told at the top of the page.</summary>
    [Parameter, EditorRequired]
    public EventCallback<(bool Good, string Sentence)> Told { get; set; }

    [Parameter, EditorRequired]
    public EventCallback Changed { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required StageDesk Stages { get; set; }

    private DateTime RunEnds => _stage!.StartedUtc!.Value.AddSeconds(_stage.LoadSeconds + _stage.RunSeconds);

    // Work by hand ends when the hands are done: its computed time is no alarm.
    private string? Alarm => _stage!.RunIsAttended ? null : _stage.Id.ToString(CultureInfo.InvariantCulture);

    private bool Resting => PlanInput.Ready(View.Sheet, DateTime.MinValue) > NowUtc;

    private LongWait? Waited => WaitRules.Exceeded(Room, View.Sheet, NowUtc);

    private IReadOnlyList<CheckPoint> Checks => CheckLists.For(_stage!.Station, Room.Revisions[View.Sheet.RecipeRevisionId].Settings);

    /// <summary>The station that this machine stands for at the moment, with this sheet: the one that runs or comes, else the last it did.</summary>
    private Station At => _here ? _stage!.Station
        : View.Sheet.Stages.Where(s => s.State == StageState.Done && Machine.Serves.Contains(s.Station)).OrderByDescending(s => s.Station).Select(s => s.Station).FirstOrDefault(Machine.Serves.Max());

    private string Size => $"{Viewer.Units.Size(View.Sheet.WidthUm / 1000.0, View.Sheet.LengthUm / 1000.0)}, recipe revision {View.Sheet.RecipeRevision!.Number}{(View.Sheet.Lot.Length > 0 ? $", lot {View.Sheet.Lot}" : "")}";

    protected override void OnParametersSet()
    {
        var before = _stage;
        _stage = View.Sheet.State == SheetState.Cancelled ? null : View.Sheet.Stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station);
        var recipe = Room.Revisions[View.Sheet.RecipeRevisionId].Settings;
        _process = recipe.Washout.Process;
        _here = _stage is not null && (_stage.State == StageState.Running ? _stage.EquipmentId == Machine.Id : Room.CanDo(Machine, _stage.Station, recipe));
        (_time, _refusal) = _here ? StageTiming.TryCompute(Room, View.Sheet, _stage!.Station, Machine, NowUtc, Viewer.Units) : (null, null);
        _must = _here ? CheckLists.MustTick(_stage!.Station, recipe) : CheckPoint.None;
        if (before?.SheetId != _stage?.SheetId)
        {
            _wrong = false;
        }

        if (before?.Id != _stage?.Id || before?.State != _stage?.State)
        {
            _askEarly = false;
        }
    }

    /// <summary>One touch: the reason can be said afterwards, the sheet stands still at once.</summary>
    private async Task HoldAsync()
    {
        await RunAsync(async () =>
        {
            Viewer.Require(Right.WorkStations);
            await Stages.HoldAsync(View.Sheet.Number, $"stopped at {Machine.Name}", By);
            return $"Sheet {TrackingNumber.ForPeople(View.Sheet.Number)} is on hold. Say why below.";
        });
        _wrong = true;
    }

    private Task ReleaseAsync() => RunAsync(async () =>
    {
        Viewer.Require(Right.DecideStages);
        await Stages.ReleaseAsync(View.Sheet.Number, By);
        return $"Sheet {TrackingNumber.ForPeople(View.Sheet.Number)} goes on.";
    });

    /// <summary>
    /// Does something with the sheet, and tells what came of it or why it was refused. The card and the focus are in their
    /// places before it is told: who goes on by keyboard at once must not lose the focus again.
    /// </summary>
    private async Task RunAsync(Func<Task<string>> act)
    {
        (bool Good, string Sentence) told;
        try
        {
            told = (true, await act());
            _wrong = false;
        }
        catch (PlateRoomException refused)
        {
            told = (false, refused.Message);
        }

        await Changed.InvokeAsync();
        await Told.InvokeAsync(told);
    }

    private IEnumerable<string> Colours(Order order) =>
        View.Sheet.Placements.Where(p => p.Plate!.TicketId == order.Id && !p.Plate.OutOfSet).Select(p => p.Plate!.Separation!.Colour).Distinct();

    private string Position(Order order) => View.SetPosition[order.Id] is { Count: > 1 } set ? $", sheet {set.Position} of {set.Count}" : "";

    private static string Epoch(DateTime utc) => new DateTimeOffset(utc, TimeSpan.Zero).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);
}
