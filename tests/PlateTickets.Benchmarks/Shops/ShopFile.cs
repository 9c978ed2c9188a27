using System.Globalization;
using PlateTickets.Planning.Scheduling;

namespace PlateTickets.Benchmarks.Shops;

/// <summary>A published shop as a request to our planner: one time unit is one second, everybody is always there.</summary>
internal sealed record ShopFile(PlanRequest Request, IReadOnlyList<int[]> MachineNames)
{
    public static readonly DateTime Zero = new(2026, 1, 1, 0, 0, 0, DateTimeKind.Utc);

    private const int OpsOfAJob = 1000;

    /// <summary>The published machine number of a planned stage.</summary>
    public int MachineOf(PlannedStage stage) => MachineNames[stage.EquipmentId][stage.Slot];

    public static int StageId(int job, int operation) => (job * OpsOfAJob) + operation;

    /// <summary>Standard job-shop text: jobs and machines, then a line of machine and duration pairs for each job. Lines may differ in length, machines may come again.</summary>
    public static ShopFile JobShop(string path)
    {
        var lines = Lines(path);
        var jobs = lines[0][0];
        var rows = lines.Skip(1).Take(jobs).Select((l, j) => Enumerable.Range(0, l.Length / 2).Select(k => new[] { (l[2 * k], l[(2 * k) + 1]) }).ToList()).ToList();
        return Of(path, jobs, rows, Enumerable.Range(0, lines[0][1]).Select(m => new[] { m }).ToList());
    }

    /// <summary>Flexible job shop: jobs and machines, then for each job the number of operations, each with its number of machines and machine-duration pairs (machines from 0).</summary>
    public static ShopFile Flexible(string path)
    {
        var lines = Lines(path);
        var rows = new List<List<(int, int)[]>>();
        foreach (var line in lines.Skip(1).Take(lines[0][0]))
        {
            var at = 1;
            var row = new List<(int, int)[]>();
            for (var k = 0; k < line[0]; k++)
            {
                var ways = line[at++];
                row.Add([.. Enumerable.Range(0, ways).Select(w => (line[at + (2 * w)], line[at + (2 * w) + 1]))]);
                at += 2 * ways;
            }

            rows.Add(row);
        }

        return Of(path, lines[0][0], rows, Enumerable.Range(0, lines[0][1]).Select(m => new[] { m }).ToList());
    }

    /// <summary>Hybrid flow shop: jobs, stages, machines of each stage, then the durations of each job. Machines are numbered on from stage to stage.</summary>
    public static ShopFile Hybrid(string path)
    {
        var lines = Lines(path);
        var (jobs, stages, machines) = (lines[0][0], lines[1][0], lines[2]);
        var rows = lines.Skip(3).Take(jobs).Select(l => Enumerable.Range(0, stages).Select(s => new[] { (s, l[s]) }).ToList()).ToList();
        var names = new List<int[]>();
        foreach (var count in machines.Take(stages))
        {
            names.Add([.. Enumerable.Range(names.Sum(n => n.Length), count)]);
        }

        return Of(path, jobs, rows, names);
    }

    /// <summary>The due times and weights of a file of job, due, weight.</summary>
    public ShopFile WithDue(string path)
    {
        var due = File.ReadLines(path).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(',')).ToDictionary(
            c => int.Parse(c[0], CultureInfo.InvariantCulture),
            c => (Due: int.Parse(c[1], CultureInfo.InvariantCulture), Weight: double.Parse(c[2], CultureInfo.InvariantCulture)));
        var missing = Request.Sheets.FirstOrDefault(s => !due.ContainsKey(s.Id));
        return missing is not null
            ? throw new FormatException($"{path} has no due time for job {missing.Id}: it belongs to another shop.")
            : this with
            {
                Request = Request with
                {
                    Goal = PlanGoal.Tardiness,
                    Sheets = [.. Request.Sheets.Select(s => s with { DueUtc = Zero.AddSeconds(due[s.Id].Due), Weight = due[s.Id].Weight })],
                },
            };
    }

    private static ShopFile Of(string path, int jobs, List<List<(int Machine, int Duration)[]>> rows, List<int[]> machines)
    {
        if (rows.Count < jobs)
        {
            throw new FormatException($"{path} names {jobs} jobs but has lines for {rows.Count} only: the file is cut off.");
        }

        var equipment = machines.Select((m, i) => new PlanEquipment(i, m.Length > 1 ? EquipmentKind.Slots : EquipmentKind.Single, m.Length, TimeSpan.Zero)).ToList();
        var sheets = rows.Select((row, j) => new PlanSheet(
            j, Zero, Zero.AddYears(1), 1, 1,
            [.. row.Select((ways, k) => new PlanStage(
                StageId(j, k), [.. ways.Select(w => new StageOption(w.Machine, TimeSpan.Zero, TimeSpan.FromSeconds(w.Duration), TimeSpan.Zero, TimeSpan.Zero))], TimeSpan.Zero))])).ToList();
        return new ShopFile(new PlanRequest(Zero, equipment, sheets, WorkingTime.Always(Zero, Zero.AddYears(20))) { Goal = PlanGoal.Makespan }, machines);
    }

    private static List<int[]> Lines(string path) => [.. File.ReadLines(path)
        .Select(l => l.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).Where(l => l.Length > 0)
        .Select((l, i) => l.Select(w => int.TryParse(w, NumberStyles.Integer, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw new FormatException($"{path}, line {i + 1}: “{w}” is no whole number.")).ToArray())];
}
