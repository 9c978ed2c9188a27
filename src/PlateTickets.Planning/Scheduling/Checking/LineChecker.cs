namespace PlateTickets.Planning.Scheduling.Checking;

/// <summary>Checks what enters a line, in the order of entry.</summary>
internal static class LineChecker
{
    public static IEnumerable<string> Violations(PlanRequest request, PlanEquipment line, List<CheckedStage> on)
    {
        var entries = on.OrderBy(s => s.RunStart).ThenBy(s => s.Start).ThenBy(s => s.Option.EntrySpacing).ToList();
        for (var i = 1; i < entries.Count; i++)
        {
            var next = entries[i];
            if (next.Stage.Running is not null)
            {
                continue;
            }

            var before = entries[..i];
            var last = before[^1];
            if (next.Start < last.RunStart)
            {
                yield return PlanChecker.Say($"Stage {next.Stage.Id} is loaded into line {line.Id} at {next.Start:u}, before stage {last.Stage.Id} has entered at {last.RunStart:u}.");
            }

            var spaced = before.Max(s => s.RunStart + s.Option.EntrySpacing);
            var sameRecipe = before.Any(s => s.RunStart == last.RunStart && s.Sheet.RecipeId == next.Sheet.RecipeId);
            if (sameRecipe && next.RunStart < spaced)
            {
                yield return PlanChecker.Say($"Stage {next.Stage.Id} enters line {line.Id} at {next.RunStart:u}, before the spacing is over at {spaced:u}.");
            }

            if (!sameRecipe && !ChangedOver(request, line, before.Max(s => s.RunEnd), next.Start))
            {
                yield return PlanChecker.Say($"Stage {next.Stage.Id} enters line {line.Id} with another recipe at {next.RunStart:u}, but the line was not empty and changed over by then.");
            }
        }
    }

    private static bool ChangedOver(PlanRequest request, PlanEquipment line, DateTime empty, DateTime by)
    {
        var from = empty > request.NowUtc ? empty : request.NowUtc;
        return line.Changeover == TimeSpan.Zero
            ? empty <= by
            : request.Working.Intervals.Any(i =>
            {
                var begin = i.StartUtc > from ? i.StartUtc : from;
                return begin + line.Changeover <= i.EndUtc && begin + line.Changeover <= by;
            });
    }
}
