namespace PlateTickets.Planning.Scheduling.Lateness;

/// <summary>What a stage waits for the longest.</summary>
public enum WaitCause
{
    /// <summary>Nothing: the work alone takes longer than there was time.</summary>
    Work = 1,

    /// <summary>The machine, which other sheets hold.</summary>
    Machine = 2,

    /// <summary>A line that runs another recipe and must be changed over.</summary>
    Changeover = 3,

    /// <summary>The machine, which is down.</summary>
    Downtime = 4,

    /// <summary>The next shift.</summary>
    Shift = 5,

    /// <summary>Somebody who has time: the machine is free and the shift is on.</summary>
    Operator = 6,

    /// <summary>A stage that may not lie before the next one begins, so that it was put off.</summary>
    NextStage = 7,

    /// <summary>Somebody to take it out: its run is over while nobody is there.</summary>
    Unloading = 8,
}

/// <summary>The longest wait on the way of a late ticket.</summary>
/// <param name="TicketId">The caller's id.</param>
/// <param name="SheetId">The sheet that comes last.</param>
/// <param name="StageId">The stage that waits; the longest one where only the work is too long.</param>
/// <param name="EquipmentId">Where it waits.</param>
/// <param name="Wait">How long.</param>
/// <param name="Cause">For what most of that time.</param>
/// <param name="Ahead">Sheets that are taken on the same machine meanwhile.</param>
/// <param name="OfOtherRecipes">How many of those are of another recipe.</param>
public sealed record CriticalStage(
    int TicketId, int SheetId, int StageId, int EquipmentId, TimeSpan Wait, WaitCause Cause, int Ahead, int OfOtherRecipes)
{
    // A shorter wait is not what makes a ticket late.
    private static readonly TimeSpan Least = TimeSpan.FromMinutes(5);

    /// <summary>One for each of the request's sets that the plan finishes after its due time.</summary>
    /// <param name="request">The room.</param>
    /// <param name="plan">Its plan.</param>
    /// <param name="also">Ids of further tickets: those that the plan finishes in time, but hardly.</param>
    public static IReadOnlyList<CriticalStage> Of(PlanRequest request, Plan plan, IReadOnlySet<int>? also = null)
    {
        var at = plan.Stages.ToDictionary(s => s.StageId);
        var sheets = request.Sheets.Where(s => s.Stages.Count > 0).ToDictionary(s => s.Id);
        var onMachine = plan.Stages.GroupBy(s => s.EquipmentId).ToDictionary(g => g.Key, g => g.OrderBy(s => s.StartUtc).ToList());
        var found = new List<CriticalStage>();
        foreach (var ticket in request.Tickets)
        {
            var last = ticket.SheetIds.Where(sheets.ContainsKey).Select(id => sheets[id]).MaxBy(s => at[s.Stages[^1].Id].FinishUtc);
            if (last is not null && (at[last.Stages[^1].Id].FinishUtc > ticket.DueUtc || also?.Contains(ticket.Id) == true))
            {
                found.Add(Longest(request, ticket, last, at, sheets, onMachine));
            }
        }

        return found;
    }

    private static CriticalStage Longest(
        PlanRequest request, PlanTicket ticket, PlanSheet sheet, Dictionary<int, PlannedStage> at, Dictionary<int, PlanSheet> sheets,
        Dictionary<int, List<PlannedStage>> onMachine)
    {
        var ready = Later(request.NowUtc, sheet.ReadyUtc);
        (PlanStage Stage, DateTime Ready, TimeSpan Wait)? longest = null;
        foreach (var stage in sheet.Stages)
        {
            var wait = stage.Running is null ? at[stage.Id].StartUtc - ready : TimeSpan.Zero;
            longest = longest is null || wait > longest.Value.Wait ? (stage, ready, wait) : longest;
            ready = Later(request.NowUtc, at[stage.Id].FinishUtc + stage.LeastWaitAfter);
        }

        var (critical, since, length) = longest!.Value;
        var lain = sheet.Stages.MaxBy(s => Lies(s, at[s.Id]))!;
        if (Lies(lain, at[lain.Id]) is var lies && lies > length && lies >= Least)
        {
            return new CriticalStage(ticket.Id, sheet.Id, lain.Id, at[lain.Id].EquipmentId, lies, WaitCause.Unloading, 0, 0);
        }

        if (length < Least)
        {
            var slowest = sheet.Stages.MaxBy(s => at[s.Id].FinishUtc - at[s.Id].StartUtc)!;
            return new CriticalStage(ticket.Id, sheet.Id, slowest.Id, at[slowest.Id].EquipmentId, length, WaitCause.Work, 0, 0);
        }

        var place = at[critical.Id];
        var ahead = onMachine[place.EquipmentId].Where(o => o.StageId != critical.Id && o.FinishUtc > since && o.StartUtc < place.StartUtc).ToList();
        var others = ahead.Count(o => sheets[o.SheetId].RecipeId != sheet.RecipeId);
        return new CriticalStage(
            ticket.Id, sheet.Id, critical.Id, place.EquipmentId, length, CauseOf(request, critical, place, since, ahead, others, sheet, at), ahead.Count, others);
    }

    private static TimeSpan Lies(PlanStage stage, PlannedStage at)
    {
        var option = stage.Options.First(o => o.EquipmentId == at.EquipmentId);
        return at.FinishUtc - at.StartUtc - option.Load - option.Run - option.Unload;
    }

    private static WaitCause CauseOf(
        PlanRequest request, PlanStage stage, PlannedStage place, DateTime since, List<PlannedStage> ahead, int others, PlanSheet sheet,
        Dictionary<int, PlannedStage> at)
    {
        var machine = request.Equipment.First(e => e.Id == place.EquipmentId);
        var held = machine.Kind == EquipmentKind.Slots && ahead.Count < machine.Slots
            ? TimeSpan.Zero
            : Covered(ahead.Select(o => (o.StartUtc, o.FinishUtc)), since, place.StartUtc);
        var down = Covered(request.Downtime.Where(d => d.EquipmentId == machine.Id).Select(d => (d.FromUtc, d.ToUtc)), since, place.StartUtc);
        var away = place.StartUtc - since - Covered(request.Working.Intervals.Select(i => (i.StartUtc, i.EndUtc)), since, place.StartUtc);
        var half = (place.StartUtc - since) / 2;
        if (down >= half)
        {
            return WaitCause.Downtime;
        }

        if (away >= half)
        {
            return WaitCause.Shift;
        }

        if (held > down && held > away && held >= half / 2)
        {
            return machine.Kind == EquipmentKind.Line && others > 0 ? WaitCause.Changeover : WaitCause.Machine;
        }

        if (machine.Kind == EquipmentKind.Line && others > 0)
        {
            return WaitCause.Changeover;
        }

        var next = sheet.Stages.SkipWhile(s => s.Id != stage.Id).Skip(1).FirstOrDefault();
        return stage.LongestWaitAfter is { } wait && next is not null && at[next.Id].StartUtc - place.FinishUtc <= wait ? WaitCause.NextStage : WaitCause.Operator;
    }

    private static TimeSpan Covered(IEnumerable<(DateTime From, DateTime To)> spans, DateTime from, DateTime to)
    {
        var (sum, end) = (TimeSpan.Zero, from);
        foreach (var span in spans.Where(s => s.To > from && s.From < to).OrderBy(s => s.From))
        {
            var (begin, stop) = (Later(span.From, end), span.To < to ? span.To : to);
            if (stop > begin)
            {
                (sum, end) = (sum + (stop - begin), stop);
            }
        }

        return sum;
    }

    private static DateTime Later(DateTime a, DateTime b) => a > b ? a : b;
}
