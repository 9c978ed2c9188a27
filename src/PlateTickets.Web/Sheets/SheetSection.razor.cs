using Microsoft.AspNetCore.Components;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Sheets;

public sealed partial class SheetSection
{
    private List<Row> _rows = [];

    [Parameter, EditorRequired]
    public required Sheet Sheet { get; set; }

    [Parameter, EditorRequired]
    public required Room Room { get; set; }

    [Parameter, EditorRequired]
    public DateTime NowUtc { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    private string StateText => Sheet.State switch
    {
        SheetState.Waiting => $"waits for {Sheet.CurrentStation!.Value.Title().ToLowerInvariant()}",
        SheetState.Running => $"in {Sheet.CurrentStation!.Value.Title().ToLowerInvariant()}",
        SheetState.OnHold => "on hold",
        SheetState.Done => $"done {SiteClock.Moment(Sheet.DoneUtc!.Value, Room.Zone)}",
        _ => "cancelled",
    } + $", recipe revision {Sheet.RecipeRevision!.Number}";

    protected override void OnParametersSet() => _rows = [.. Sheet.Stages.OrderBy(s => s.Station).Select(RowOf)];

    private Row RowOf(Stage stage)
    {
        var recipe = Room.Revisions[Sheet.RecipeRevisionId].Settings;
        var machine = Room.EquipmentById(stage.EquipmentId) ?? Room.For(stage.Station, recipe).FirstOrDefault();
        return machine is null
            ? new Row(stage, "no machine", null)
            : new Row(stage, machine.Name, StageTiming.TryCompute(Room, Sheet, stage.Station, machine, NowUtc, Viewer.Units).Time);
    }

    private string Planned(Stage stage) => stage is { PlannedStartUtc: { } start, PlannedFinishUtc: { } finish }
        ? $"{SiteClock.Moment(start, Room.Zone)} – {SiteClock.Near(finish, start, Room.Zone)}"
        : "–";

    private string Done(Stage stage) => stage.State switch
    {
        StageState.Done when stage.SkippedBecause.Length > 0 => $"skipped by {stage.FinishedBy}: {stage.SkippedBecause}",
        StageState.Done => $"{SiteClock.Moment(stage.FinishedUtc!.Value, Room.Zone)}, {stage.FinishedBy}",
        StageState.Running => $"running since {SiteClock.Near(stage.StartedUtc!.Value, NowUtc, Room.Zone)}, {stage.StartedBy}",
        _ => "",
    };

    private static string Slack(Stage stage)
    {
        if (stage.DueByUtc is not { } dueBy || (stage.FinishedUtc ?? stage.PlannedFinishUtc) is not { } finish)
        {
            return "–";
        }

        var slack = dueBy - finish;
        return slack < TimeSpan.Zero ? $"late by {Durations.ForPeople(-slack.TotalSeconds)}" : Durations.ForPeople(slack.TotalSeconds);
    }

    private sealed record Row(Stage Stage, string Machine, StageTime? Time)
    {
        /// <summary>What is computed now, unless the stage was made with another time: then what was computed when it started.</summary>
        public string Explanation => Time is { } time && (Stage.State == StageState.Waiting || (int)Math.Round(time.RunSeconds) == Stage.RunSeconds)
            ? time.Explanation
            : Stage.Explanation;
    }
}
