using System.Diagnostics;
using System.Globalization;

namespace PlateTickets.Benchmarks.Ovens;

/// <summary>Plans a published oven instance, checks the batches and prints what they cost. Drawers, shifts and changeovers in one.</summary>
internal static class OvenCommand
{
    public static int Run(string[] args)
    {
        var options = Options.Of(args, "--seconds", "--seed", "--out", "--workers");
        if (options.Files.Count != 1)
        {
            Console.Error.WriteLine("Name one file of an oven instance.");
            return 1;
        }

        try
        {
            return Run(options.Files[0], options);
        }
        catch (Exception e) when (e is FormatException or IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(e.Message);
            return 1;
        }
    }

    private static int Run(string path, Options options)
    {
        var (seconds, seed, workers) = (options.Number("--seconds", 30), (int)options.Number("--seed", 1), (int)options.Number("--workers", 2));
        if (seconds <= 0 || workers < 1)
        {
            throw new FormatException("--seconds must be above 0 and --workers at least 1.");
        }

        var oven = OvenFile.Read(path);
        var known = BestKnown(path, oven.Name);

        // Once for the compiler, once for the clock.
        OvenFirst.Build(oven);
        var watch = Stopwatch.StartNew();
        var first = OvenFirst.Build(oven);
        var firstMs = watch.Elapsed.TotalMilliseconds;
        var result = new OvenPlanner(oven, TimeSpan.FromSeconds(seconds), workers, seed).Plan(first);
        var wall = watch.Elapsed.TotalSeconds;

        var goal = OvenChecker.Goal(oven, result.Batches);
        var wrong = OvenChecker.Violations(oven, result.Batches).ToList();
        if (goal.Value != result.Value)
        {
            wrong.Add(string.Create(CultureInfo.InvariantCulture, $"the planner counts {result.Value}, the rules {goal.Value}"));
        }

        if (goal.Value < result.Bound)
        {
            wrong.Add(string.Create(CultureInfo.InvariantCulture, $"the value {goal.Value} is below its bound {result.Bound}"));
        }

        Print(
            ("instance", oven.Name), ("jobs", oven.Jobs.Length), ("machines", oven.Machines.Length),
            ("value", goal.Value), ("bound", result.Bound), ("gap %", Percent(goal.Value, result.Bound)),
            ("best known", known is { } k ? k : "-"), ("to known %", known is { } b ? Percent(goal.Value, b) : "-"),
            ("run time", goal.RunTime), ("late", goal.Late), ("set-up time", goal.SetupTime), ("set-up cost", goal.SetupCost),
            ("batches", result.Batches.Count), ("first", OvenChecker.Goal(oven, first).Value), ("first ms", firstMs.ToString("0.0", CultureInfo.InvariantCulture)),
            ("seconds", wall.ToString("0.0", CultureInfo.InvariantCulture)), ("violations", wrong.Count));
        foreach (var what in wrong)
        {
            Console.Error.WriteLine(what);
        }

        if (options.Text("--out") is { } csv)
        {
            Write(result.Batches, csv);
        }

        return wrong.Count == 0 ? 0 : 1;
    }

    // instance,value,... in a file beside the instances.
    private static long? BestKnown(string path, string instance)
    {
        var csv = Path.Combine(Path.GetDirectoryName(Path.GetFullPath(path))!, "best_known.csv");
        if (!File.Exists(csv))
        {
            return null;
        }

        var line = File.ReadLines(csv).Select(l => l.Split(',')).FirstOrDefault(l => l[0] == instance);
        return line is null ? null
            : line.Length > 1 && long.TryParse(line[1], NumberStyles.None, CultureInfo.InvariantCulture, out var value) ? value
            : throw new FormatException($"{csv}: the value of {instance} is no whole number.");
    }

    // By how much a value lies above what it is held against.
    private static string Percent(long value, long against) => against == 0 && value != 0
        ? "-"
        : (against == 0 ? 0 : 100.0 * (value - against) / against).ToString("0.000", CultureInfo.InvariantCulture);

    private static void Print(params (string Name, object Value)[] columns)
    {
        var cells = columns.Select(c => (c.Name, Value: Convert.ToString(c.Value, CultureInfo.InvariantCulture)!)).ToList();
        Console.WriteLine(string.Join("  ", cells.Select(c => c.Name.PadLeft(c.Value.Length))));
        Console.WriteLine(string.Join("  ", cells.Select(c => c.Value.PadLeft(c.Name.Length))));
    }

    private static void Write(IReadOnlyList<OvenBatch> batches, string path)
    {
        using var csv = new StreamWriter(path);
        csv.Write("batch,machine,job,start,end\n");
        foreach (var (b, batch) in batches.OrderBy(b => b.Machine).ThenBy(b => b.Start).Index())
        {
            foreach (var job in batch.Jobs)
            {
                csv.Write(string.Create(CultureInfo.InvariantCulture, $"{b + 1},{batch.Machine + 1},{job + 1},{batch.Start},{batch.End}\n"));
            }
        }
    }
}
