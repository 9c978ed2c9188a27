namespace PlateTickets.Planning.Scheduling.Checking;

/// <summary>Adds up what a plan costs from its stages alone.</summary>
internal static class CostChecker
{
    /// <summary>What a sheet that lies longer than it may costs against one that comes late by as much.</summary>
    private const double TooLong = 10;

    public static IEnumerable<string> Violations(PlanRequest request, Plan plan, Dictionary<int, CheckedStage> placed)
    {
        var cost = Main(request, placed);
        // Every due time and the present may be rounded by a second.
        var within = 1 + (2 * (request.Tickets.Sum(t => t.Weight) + request.Sheets.Sum(s => s.Weight * (1 + (TooLong * s.Stages.Count)))));
        if (Math.Abs(cost - plan.Cost.Main) > within)
        {
            yield return PlanChecker.Say($"The plan says that it costs {plan.Cost.Main:0}, but its stages cost {cost:0}.");
        }
    }

    private static double Main(PlanRequest request, Dictionary<int, CheckedStage> placed)
    {
        var sheets = request.Sheets.Where(s => s.Stages.Count > 0).ToDictionary(s => s.Id);
        var finish = sheets.Values.ToDictionary(s => s.Id, s => placed[s.Stages[^1].Id].Finish);
        if (request.Goal == PlanGoal.Makespan)
        {
            return finish.Count == 0 ? 0 : Math.Max(0, (finish.Values.Max() - request.NowUtc).TotalSeconds);
        }

        var sets = request.Tickets.Select(t => (t.DueUtc, t.Weight, Sheets: t.SheetIds.Where(sheets.ContainsKey).ToList())).Where(t => t.Sheets.Count > 0).ToList();
        var covered = sets.SelectMany(t => t.Sheets).ToHashSet();
        sets.AddRange(sheets.Values.Where(s => !covered.Contains(s.Id)).Select(s => (s.DueUtc, s.Weight, Sheets: new List<int> { s.Id })));
        var late = sets.Sum(t => t.Weight * Math.Max(0, (t.Sheets.Max(s => finish[s]) - t.DueUtc).TotalSeconds));
        var heaviest = sheets.Keys.ToDictionary(id => id, id => sets.Where(t => t.Sheets.Contains(id)).Max(t => t.Weight));
        return late + LongWaits.Of(request, placed).Sum(w => TooLong * heaviest[w.SheetId] * w.TooLong.TotalSeconds);
    }
}
