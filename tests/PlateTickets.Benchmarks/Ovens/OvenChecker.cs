namespace PlateTickets.Benchmarks.Ovens;

/// <summary>The four parts of the goal and what they cost together.</summary>
internal sealed record OvenGoal(long RunTime, long Late, long SetupTime, long SetupCost, long Value);

/// <summary>Holds finished batches against the published rules and counts their goal; shares nothing with the planner.</summary>
internal static class OvenChecker
{
    public static IReadOnlyList<string> Violations(OvenFile oven, IReadOnlyList<OvenBatch> batches)
    {
        var found = new List<string>();
        void Rule(bool kept, string what)
        {
            if (!kept)
            {
                found.Add(what);
            }
        }

        var placed = batches.SelectMany(b => b.Jobs).ToLookup(j => j);
        Rule(placed.All(p => p.Key >= 0 && p.Key < oven.Jobs.Length), "a job that does not exist");
        for (var j = 0; j < oven.Jobs.Length; j++)
        {
            Rule(placed[j].Count() == 1, $"job {j + 1} is in {placed[j].Count()} batches");
        }

        foreach (var batch in batches)
        {
            var name = $"batch on machine {batch.Machine + 1} at {batch.Start}";
            var machine = oven.Machines[batch.Machine];
            var jobs = batch.Jobs.Select(j => oven.Jobs[j]).ToList();
            Rule(jobs.Count > 0, $"{name} is empty");
            Rule(jobs.Select(j => j.Attribute).Distinct().Count() <= 1, $"{name} mixes attributes");
            Rule(jobs.All(j => j.Machines.Contains(batch.Machine)), $"{name} has a job that may not run there");
            Rule(jobs.Sum(j => j.Size) <= machine.Capacity, $"{name} is overfull");
            Rule(jobs.All(j => batch.Start >= j.Release), $"{name} starts before a job is there");
            Rule(jobs.All(j => batch.End - batch.Start >= j.MinTime), $"{name} is too short for a job");
            Rule(jobs.All(j => batch.End - batch.Start <= j.MaxTime), $"{name} is too long for a job");
        }

        foreach (var (batch, before, setup) in InOrder(oven, batches))
        {
            var name = $"batch on machine {batch.Machine + 1} at {batch.Start}";
            var from = batch.Start - setup.Time;
            Rule(before is null || from >= before.End, $"{name} or its set-up overlaps the batch before");
            Rule(oven.Machines[batch.Machine].Shifts.Any(s => s.Start <= from && batch.End <= s.End), $"{name} with its set-up lies in no working interval");
        }

        return found;
    }

    public static OvenGoal Goal(OvenFile oven, IReadOnlyList<OvenBatch> batches)
    {
        var setups = InOrder(oven, batches).Select(b => b.Setup).ToList();
        long runTime = batches.Sum(b => b.End - b.Start), late = batches.Sum(b => b.Jobs.Count(j => b.End > oven.Jobs[j].Due));
        long time = setups.Sum(s => s.Time), cost = setups.Sum(s => s.Cost);
        var weights = oven.Weights;
        return new OvenGoal(
            runTime, late, time, cost,
            (weights.RunTime * runTime) + (weights.Late * late) + (weights.SetupTime * time) + (weights.SetupCost * cost));
    }

    private static IEnumerable<(OvenBatch Batch, OvenBatch? Before, (int Time, int Cost) Setup)> InOrder(OvenFile oven, IReadOnlyList<OvenBatch> batches)
    {
        foreach (var machine in batches.Where(b => b.Jobs.Length > 0).GroupBy(b => b.Machine))
        {
            OvenBatch? before = null;
            foreach (var batch in machine.OrderBy(b => b.Start).ThenBy(b => b.End))
            {
                var (from, to) = (before is null ? oven.Machines[machine.Key].FirstAttribute : oven.Jobs[before.Jobs[0]].Attribute, oven.Jobs[batch.Jobs[0]].Attribute);
                yield return (batch, before, (oven.SetupTimes[from + 1][to], oven.SetupCosts[from + 1][to]));
                before = batch;
            }
        }
    }
}
