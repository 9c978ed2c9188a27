using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;

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
        Room room, IReadOnlyList<Sheet> sheets, IReadOnlyList<PlanTicket> tickets, IReadOnlyDictionary<Station, TimeSpread> spreads, DateTime nowUtc)
    {
        var times = new StageTimesByMachine();
        var planSheets = new List<PlanSheet>(sheets.Count);
        var due = Due(tickets);
        var eligible = Eligible(room);
        var latest = nowUtc;
        var earliest = nowUtc;
        foreach (var sheet in sheets)
        {
            if (sheet.Stages.All(s => s.State == StageState.Done) || !due.TryGetValue(sheet.Id, out var sheetDue))
            {
                continue;
            }

            latest = Later(latest, sheetDue.DueUtc);
            earliest = sheetDue.DueUtc < earliest ? sheetDue.DueUtc : earliest;
            if (PlanSheetOf(room, sheet, sheetDue, eligible[sheet.RecipeRevisionId], spreads, nowUtc, times) is { } planned)
            {
                planSheets.Add(planned);
            }
        }

        var equipment = room.Equipment
            .Select(e => new PlanEquipment(e.Id, e.Kind, e.Slots, TimeSpan.FromSeconds(e.ChangeoverSeconds)))
            .ToList();
        var duty = DutyPlan.Of(room, room.DutyChanges.Select(c => new HeadcountChange(c.FromUtc, c.ToUtc, c.People)), earliest - Back, latest + Ahead);
        var inPlan = planSheets.Select(s => s.Id).ToHashSet();
        var request = new PlanRequest(nowUtc, equipment, planSheets, duty.Working)
        {
            Operators = duty.Operators,
            Downtime = [.. room.Downtimes.Where(d => d.ToUtc > nowUtc && d.FromUtc < d.ToUtc).Select(d => new Downtime(d.EquipmentId, d.FromUtc, d.ToUtc))],
            Tickets = [.. tickets.Select(t => t with { SheetIds = [.. t.SheetIds.Where(inPlan.Contains)] }).Where(t => t.SheetIds.Count > 0)],
        };
        return (request, times);
    }

    /// <summary>Sheets that do not exist yet, for the question when they would be done. Null when no machine can finish one of them.</summary>
    public static IReadOnlyList<PlanSheet>? Imagined(Room room, IEnumerable<Sheet> sheets, IReadOnlyDictionary<Station, TimeSpread> spreads, DateTime nowUtc)
    {
        var eligible = Eligible(room);
        var due = new SheetDue(nowUtc, 1);
        var planned = sheets.Select(s => PlanSheetOf(room, s, due, eligible[s.RecipeRevisionId], spreads, nowUtc, [])).ToList();
        return planned.Contains(null) ? null : planned.OfType<PlanSheet>().ToList();
    }

    private static Dictionary<int, Dictionary<Station, List<Equipment>>> Eligible(Room room) => room.Revisions.ToDictionary(
        r => r.Key, r => r.Value.Settings.Route.ToDictionary(s => s, s => room.For(s, r.Value.Settings).ToList()));

    private static Dictionary<int, SheetDue> Due(IReadOnlyList<PlanTicket> tickets)
    {
        var due = new Dictionary<int, SheetDue>();
        foreach (var ticket in tickets)
        {
            foreach (var id in ticket.SheetIds)
            {
                due[id] = due.TryGetValue(id, out var other)
                    ? new SheetDue(ticket.DueUtc < other.DueUtc ? ticket.DueUtc : other.DueUtc, Math.Max(ticket.Weight, other.Weight))
                    : new SheetDue(ticket.DueUtc, ticket.Weight);
            }
        }

        return due;
    }

    // A sheet that no machine can finish is left out and says why; it must not stop the plan of all others.
    private static PlanSheet? PlanSheetOf(
        Room room, Sheet sheet, SheetDue due, Dictionary<Station, List<Equipment>> eligible, IReadOnlyDictionary<Station, TimeSpread> spreads,
        DateTime nowUtc, StageTimesByMachine times)
    {
        var settings = room.Revisions[sheet.RecipeRevisionId].Settings;
        var open = sheet.Stages.Where(s => s.State != StageState.Done).OrderBy(s => s.Station).ToList();
        var stages = open
            .Select(s => PlanStageOf(room, sheet, s, eligible[s.Station], nowUtc, times) is { } stage
                ? stage with
                {
                    LongestWaitAfter = settings.HandlingAt(s.Station)?.LongestWaitAfterSeconds is { } wait ? Whole(wait) : null,
                    Spread = spreads.TryGetValue(s.Station, out var spread) ? spread : null,
                }
                : null)
            .OfType<PlanStage>().ToList();
        return stages.Count < open.Count
            ? null
            : new PlanSheet(sheet.Id, Ready(sheet, nowUtc), due.DueUtc, due.Weight, sheet.RecipeRevisionId, stages);
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
