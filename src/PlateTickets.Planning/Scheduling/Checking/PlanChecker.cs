using System.Globalization;

namespace PlateTickets.Planning.Scheduling.Checking;

/// <summary>
/// Checks a plan against its request without knowing how it was made: it shares no arithmetic with the planner and looks
/// at working time interval by interval.
/// </summary>
public static class PlanChecker
{
    /// <summary>
    /// What is wrong with the plan, one sentence each: stages missing or doubled, the order within a sheet, waits, work
    /// before now, frozen stages moved, attended parts outside working time or more at once than there are operators, machines
    /// overfull or used while they are down, a line's spacing and changeovers, and a cost that is not that of its stages.
    /// </summary>
    public static IReadOnlyList<string> Violations(PlanRequest request, Plan plan)
    {
        var found = new List<string>();
        var placed = Place(request, plan, found);
        foreach (var sheet in request.Sheets)
        {
            CheckOrder(request, sheet, placed, found);
        }

        foreach (var stage in placed.Values)
        {
            CheckTimes(request, stage, found);
            CheckDowntime(request, stage, found);
        }

        found.AddRange(OperatorChecker.Violations(request, placed.Values));
        if (found.Count == 0)
        {
            found.AddRange(CostChecker.Violations(request, plan, placed));
        }

        foreach (var equipment in request.Equipment)
        {
            var on = placed.Values.Where(p => p.Planned.EquipmentId == equipment.Id).ToList();
            found.AddRange(equipment.Kind == EquipmentKind.Line
                ? LineChecker.Violations(request, equipment, on)
                : Overfull(equipment, on));
        }

        return found;
    }

    internal static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);

    internal static bool Attended(PlanRequest request, DateTime from, TimeSpan length) =>
        length == TimeSpan.Zero || (request.Operators ?? [request.Working])
            .Any(p => p.Intervals.Any(i => i.StartUtc <= from && from + length <= i.EndUtc));

    private static Dictionary<int, CheckedStage> Place(PlanRequest request, Plan plan, List<string> found)
    {
        var asked = request.Sheets.SelectMany(s => s.Stages.Select(t => (Sheet: s, Stage: t))).ToDictionary(a => a.Stage.Id);
        var placed = new Dictionary<int, CheckedStage>();
        foreach (var planned in plan.Stages)
        {
            if (!asked.TryGetValue(planned.StageId, out var ask) || ask.Sheet.Id != planned.SheetId)
            {
                found.Add(Say($"Stage {planned.StageId} of sheet {planned.SheetId} is planned, but nobody asked for it."));
            }
            else if (ask.Stage.Options.FirstOrDefault(o => o.EquipmentId == planned.EquipmentId) is not { } option)
            {
                found.Add(Say($"Stage {planned.StageId} is planned on machine {planned.EquipmentId}, which cannot do it."));
            }
            else if (!placed.TryAdd(planned.StageId, new CheckedStage(ask.Sheet, ask.Stage, option, planned)))
            {
                found.Add(Say($"Stage {planned.StageId} is planned twice."));
            }
        }

        found.AddRange(asked.Keys.Except(plan.Stages.Select(p => p.StageId)).Select(id => Say($"Stage {id} is not planned.")));
        return placed;
    }

    private static void CheckOrder(PlanRequest request, PlanSheet sheet, Dictionary<int, CheckedStage> placed, List<string> found)
    {
        var from = request.NowUtc > sheet.ReadyUtc ? request.NowUtc : sheet.ReadyUtc;
        foreach (var stage in sheet.Stages)
        {
            if (!placed.TryGetValue(stage.Id, out var at))
            {
                return;
            }

            if (stage.Running is null && at.Start < from)
            {
                found.Add(Say($"Stage {stage.Id} of sheet {sheet.Id} starts at {at.Start:u}, before {from:u}, when the sheet can be there."));
            }

            from = at.Finish + stage.LeastWaitAfter;
        }
    }

    private static void CheckTimes(PlanRequest request, CheckedStage stage, List<string> found)
    {
        var id = stage.Stage.Id;
        var overdue = false;
        if (stage.Stage.Running is { } running)
        {
            overdue = stage.Finish == request.NowUtc;
            if (running.EquipmentId != stage.Planned.EquipmentId || running.StartedUtc != stage.Start)
            {
                found.Add(Say($"Stage {id} runs on machine {running.EquipmentId} since {running.StartedUtc:u}, but the plan moves it to machine {stage.Planned.EquipmentId} at {stage.Start:u}."));
            }

            if (stage.Finish < request.NowUtc)
            {
                found.Add(Say($"Stage {id} is still running, but the plan lets it finish at {stage.Finish:u}, before now."));
            }
        }
        else if (!Attended(request, stage.Start, stage.Option.Load))
        {
            found.Add(Say($"Stage {id} is loaded at {stage.Start:u}, when nobody is there for all of its loading."));
        }

        if (stage.Finish < stage.RunEnd + stage.Option.Unload)
        {
            found.Add(Say($"Stage {id} finishes at {stage.Finish:u}, before its loading, run and unloading are over."));
        }

        if (!overdue && !Attended(request, stage.Finish - stage.Option.Unload, stage.Option.Unload))
        {
            found.Add(Say($"Stage {id} is unloaded until {stage.Finish:u}, when nobody is there for all of its unloading."));
        }
    }

    // What runs already is a fact, even on a machine that went down.
    private static void CheckDowntime(PlanRequest request, CheckedStage stage, List<string> found)
    {
        if (stage.Stage.Running is null
            && request.Downtime.FirstOrDefault(d => d.EquipmentId == stage.Planned.EquipmentId && d.FromUtc < stage.Finish && stage.Start < d.ToUtc) is { } down)
        {
            found.Add(Say($"Stage {stage.Stage.Id} is planned on machine {down.EquipmentId} from {stage.Start:u} to {stage.Finish:u}, but the machine is down from {down.FromUtc:u} to {down.ToUtc:u}."));
        }
    }

    // A machine can only become overfull when a stage starts. What runs already is a fact, even if it is one too many.
    private static IEnumerable<string> Overfull(PlanEquipment equipment, List<CheckedStage> on)
    {
        var slots = equipment.Kind == EquipmentKind.Slots ? equipment.Slots : 1;
        return on
            .Where(s => s.Stage.Running is null && on.Count(o => o != s && o.Start <= s.Start && s.Start < o.Finish) >= slots)
            .Select(s => Say($"Machine {equipment.Id} takes {slots} at once, but is full when stage {s.Stage.Id} starts at {s.Start:u}."));
    }
}
