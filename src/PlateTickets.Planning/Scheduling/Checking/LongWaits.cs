namespace PlateTickets.Planning.Scheduling.Checking;

/// <summary>A sheet lies longer between two stages than it may.</summary>
/// <param name="SheetId">The sheet.</param>
/// <param name="StageId">The stage that comes too late.</param>
/// <param name="TooLong">By how much.</param>
public sealed record LongWait(int SheetId, int StageId, TimeSpan TooLong);

/// <summary>
/// Where a plan lets sheets lie too long. A plan avoids it where it can, but a sheet that waits already, or a room that is
/// full, may leave it no way: so this is a cost of the plan, not a fault of the planner.
/// </summary>
public static class LongWaits
{
    public static IReadOnlyList<LongWait> Of(PlanRequest request, Plan plan)
    {
        var at = plan.Stages.ToDictionary(s => s.StageId);
        return [.. Of(request, id => at[id].StartUtc, id => at[id].FinishUtc)];
    }

    internal static IEnumerable<LongWait> Of(PlanRequest request, Dictionary<int, CheckedStage> placed) =>
        Of(request, id => placed[id].Start, id => placed[id].Finish);

    private static IEnumerable<LongWait> Of(PlanRequest request, Func<int, DateTime> start, Func<int, DateTime> finish) =>
        from sheet in request.Sheets
        from pair in sheet.Stages.Zip(sheet.Stages.Skip(1))
        where pair.First.LongestWaitAfter is not null
        let longest = pair.First.LongestWaitAfter > pair.First.LeastWaitAfter ? pair.First.LongestWaitAfter.Value : pair.First.LeastWaitAfter
        let tooLong = start(pair.Second.Id) - finish(pair.First.Id) - longest
        where tooLong > TimeSpan.Zero
        select new LongWait(sheet.Id, pair.Second.Id, tooLong);
}
