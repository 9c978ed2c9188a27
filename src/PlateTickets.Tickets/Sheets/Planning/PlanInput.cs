using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>The earliest due time and the greatest weight of the tickets on a sheet.</summary>
public sealed record SheetDue(DateTime DueUtc, double Weight);

/// <summary>The computed time of each waiting stage on each machine that could do it.</summary>
public sealed class StageTimesByMachine : Dictionary<(int StageId, int EquipmentId), StageTime>;

/// <summary>Turns our records into the planner's question.</summary>
public static class PlanInput
{
    // The calendar must hold the whole plan; a room booked for longer than this has another trouble than its plan.
    private static readonly TimeSpan Ahead = TimeSpan.FromDays(90);
    private static readonly TimeSpan Back = TimeSpan.FromDays(14);

    public static (PlanRequest Request, StageTimesByMachine Times) Build(
        Room room, IReadOnlyList<Sheet> sheets, IReadOnlyDictionary<int, SheetDue> due, DateTime nowUtc)
    {
        var times = new StageTimesByMachine();
        var planSheets = new List<PlanSheet>(sheets.Count);
        var eligible = room.Revisions.ToDictionary(
            r => r.Key, r => r.Value.Settings.Route.ToDictionary(s => s, s => room.For(s, r.Value.Settings).ToList()));
        var latest = nowUtc;
        var earliest = nowUtc;
        foreach (var sheet in sheets)
        {
            var open = sheet.Stages.Where(s => s.State != StageState.Done).OrderBy(s => s.Station).ToList();
            if (open.Count == 0 || !due.TryGetValue(sheet.Id, out var sheetDue))
            {
                continue;
            }

            latest = Later(latest, sheetDue.DueUtc);
            earliest = sheetDue.DueUtc < earliest ? sheetDue.DueUtc : earliest;
            // A sheet that no machine can finish is left out and says why; it must not stop the plan of all others.
            var stages = open.Select(s => PlanStageOf(room, sheet, s, eligible[sheet.RecipeRevisionId][s.Station], nowUtc, times)).OfType<PlanStage>().ToList();
            if (stages.Count == open.Count)
            {
                planSheets.Add(new PlanSheet(sheet.Id, Ready(sheet, nowUtc), sheetDue.DueUtc, sheetDue.Weight, sheet.RecipeRevisionId, stages));
            }
        }

        var equipment = room.Equipment
            .Select(e => new PlanEquipment(e.Id, e.Kind, e.Slots, TimeSpan.FromSeconds(e.ChangeoverSeconds)))
            .ToList();
        return (new PlanRequest(nowUtc, equipment, planSheets, room.WorkingBetween(earliest - Back, latest + Ahead)), times);
    }

    /// <summary>The earliest start of a sheet's next stage: after the rest that its last finished stage asks for.</summary>
    public static DateTime Ready(Sheet sheet, DateTime nowUtc)
    {
        var last = sheet.Stages.Where(s => s.State == StageState.Done).MaxBy(s => s.Station);
        return last?.FinishedUtc is { } finished ? Later(nowUtc, finished.AddSeconds(last.RestAfterSeconds)) : nowUtc;
    }

    private static PlanStage? PlanStageOf(
        Room room, Sheet sheet, Stage stage, List<Equipment> machines, DateTime nowUtc, StageTimesByMachine times)
    {
        if (stage.State == StageState.Running)
        {
            // A running stage keeps the times that it was started with.
            var running = Option(
                stage.EquipmentId!.Value, stage.LoadSeconds, stage.RunSeconds, stage.UnloadSeconds, stage.OccupiesSeconds, stage.RunIsAttended);
            return new PlanStage(
                stage.Id, [running], TimeSpan.FromSeconds(stage.RestAfterSeconds), new RunningStage(stage.EquipmentId.Value, stage.StartedUtc!.Value));
        }

        var options = new List<StageOption>(machines.Count);
        var rest = 0.0;
        var refusals = new List<string>();
        foreach (var machine in machines)
        {
            var (time, refusal) = StageTiming.TryCompute(room, sheet, stage.Station, machine, nowUtc);
            if (time is null)
            {
                refusals.Add(refusal!);
                continue;
            }

            times[(stage.Id, machine.Id)] = time;
            rest = time.RestAfterSeconds;
            options.Add(Option(machine.Id, time.LoadSeconds, time.RunSeconds, time.UnloadSeconds, time.OccupiesRunSeconds, time.RunIsAttended));
        }

        if (options.Count > 0)
        {
            return new PlanStage(stage.Id, options, Whole(rest));
        }

        stage.Flags = refusals.Count > 0
            ? string.Join('\n', refusals)
            : $"No machine of this room can do {stage.Station.Title().ToLowerInvariant()} for this material: add one, or withdraw the recipe.";
        return null;
    }

    // Work by hand from end to end is load to the planner: it lies inside working time and keeps its person.
    private static StageOption Option(int machine, double load, double run, double unload, double occupies, bool attended) => attended
        ? new(machine, Whole(load) + Whole(run), TimeSpan.Zero, Whole(unload), TimeSpan.Zero)
        : new(machine, Whole(load), Whole(run), Whole(unload), Whole(occupies));

    private static TimeSpan Whole(double seconds) => TimeSpan.FromSeconds(Math.Round(seconds));

    private static DateTime Later(DateTime a, DateTime b) => a > b ? a : b;
}
