namespace PlateTickets.Planning.Scheduling.Checking;

/// <summary>Checks that no more is loaded and unloaded at once than there are operators.</summary>
internal static class OperatorChecker
{
    private readonly record struct Part(CheckedStage Stage, string What, DateTime From, DateTime To, bool IsFact);

    public static IEnumerable<string> Violations(PlanRequest request, IReadOnlyCollection<CheckedStage> placed)
    {
        if (request.Operators is not { } operators)
        {
            yield break;
        }

        var parts = placed.SelectMany(s => Parts(request, s)).Where(p => p.To > p.From).OrderBy(p => p.From).ToList();
        var longest = parts.Count == 0 ? TimeSpan.Zero : parts.Max(p => p.To - p.From);
        for (var i = 0; i < parts.Count; i++)
        {
            var part = parts[i];
            if (part.IsFact)
            {
                continue;
            }

            var there = operators.Count(o => o.Intervals.Any(x => x.StartUtc <= part.From && part.From < x.EndUtc));
            var atOnce = 1;
            for (var k = i - 1; k >= 0 && parts[k].From > part.From - longest; k--)
            {
                atOnce += parts[k].To > part.From ? 1 : 0;
            }

            for (var k = i + 1; k < parts.Count && parts[k].From == part.From; k++)
            {
                atOnce += parts[k].IsFact ? 1 : 0;
            }

            if (atOnce > there)
            {
                yield return PlanChecker.Say($"Stage {part.Stage.Stage.Id} is {part.What} at {part.From:u} as number {atOnce} at once, but {there} operators are there.");
            }
        }
    }

    private static IEnumerable<Part> Parts(PlanRequest request, CheckedStage s)
    {
        var running = s.Stage.Running is not null;
        yield return new Part(s, "loaded", s.Start, s.RunStart, running);
        yield return new Part(s, "unloaded", s.Finish - s.Option.Unload, s.Finish, running && s.Finish <= request.NowUtc + s.Option.Unload);
    }
}
