using System.Diagnostics;
using System.Globalization;
using PlateTickets.Planning.Nesting;

namespace PlateTickets.Benchmarks.Nesting;

/// <summary>Rectangles of published sets onto bins with edge-to-edge cuts: one instance, or all of a folder with their totals.</summary>
internal static class NestCommand
{
    private static readonly NestRules Touching = new(0, 0, 0);

    public static int Run(string[] args)
    {
        var rotation = !args.Contains("--no-rotation");
        var options = Options.Of([.. args.Where(a => a != "--no-rotation")], "--seconds", "--plates", "--seed", "--out");
        // Without a limit the usual effort of the program.
        var effort = options.Text("--plates") is null && options.Text("--seconds") is null && options.Text("--seed") is null ? null : new NestEffort(
            (long)options.Number("--plates", options.Text("--seconds") is null ? 400_000 : 1e15),
            options.Text("--seconds") is null ? null : new NestTime(TimeProvider.System, TimeSpan.FromSeconds(options.Number("--seconds", 0))),
            (ulong)options.Number("--seed", 1));
        return options.Files switch
        {
            [var folder] when Directory.Exists(folder) => All(folder, rotation, effort),
            [var first, var second] => One(PackingInstance.Of(first, second), rotation, effort, options.Text("--out")),
            _ => throw new FormatException("Give BINS.csv ITEMS.csv, or FILE.2bp:N_R -, or a folder."),
        };
    }

    private static int One(PackingInstance instance, bool rotation, NestEffort? effort, string? file)
    {
        var clock = Stopwatch.StartNew();
        var result = instance.Nest(rotation, effort);
        Print($"{instance.Name}: {result.Sheets.Count} bins in {clock.Elapsed.TotalMilliseconds:0.0} ms");
        Check(result);
        if (file is not null)
        {
            using var to = File.CreateText(file);
            instance.Write(to, result);
        }

        return 0;
    }

    private static int All(string folder, bool rotation, NestEffort? effort)
    {
        var best = BestKnown(folder, rotation);
        var (bins, known, count, milliseconds, slowest) = (0, 0, 0, 0.0, 0.0);
        Print($"{"instance",-34}{"bins",6}{"best",6}{"ms",9}");
        foreach (var instance in PackingInstance.OfFolder(folder).Prepend(PackingInstance.OfFolder(folder).First()).Index())
        {
            var clock = Stopwatch.StartNew();
            var result = instance.Item.Nest(rotation, effort);
            var took = clock.Elapsed.TotalMilliseconds;
            if (instance.Index == 0)
            {
                // The first is run twice: the first run compiles.
                continue;
            }

            Check(result);
            var value = best.GetValueOrDefault(instance.Item.Name, -1);
            (bins, known, count, milliseconds, slowest) = (bins + result.Sheets.Count, known + value, count + 1, milliseconds + took, Math.Max(slowest, took));
            if (result.Sheets.Count != value)
            {
                Print($"{instance.Item.Name,-34}{result.Sheets.Count,6}{value,6}{took,9:0.0}");
            }
        }

        Print($"{count} instances (those that differ are listed): {bins} bins, best known three-stage total {known}; {milliseconds / count:0.0} ms an instance, slowest {slowest:0} ms");
        return 0;
    }

    private static Dictionary<string, int> BestKnown(string folder, bool rotation)
    {
        var variant = rotation ? "rotation guillotine 3-stage" : "oriented guillotine 3-stage";
        return File.ReadLines(Path.Combine(folder, "best_known.csv"))
            .Where(l => l.EndsWith(variant, StringComparison.Ordinal))
            .Select(l => l.Split(','))
            .ToDictionary(l => l[0], l => int.Parse(l[1], CultureInfo.InvariantCulture));
    }

    // A wrong layout must not count: the checker knows nothing of the search.
    private static void Check(NestResult result)
    {
        var wrong = result.Sheets.SelectMany(s => LayoutChecker.Violations(s, Touching)).FirstOrDefault()
            ?? (result.TooLarge.Count > 0 ? "Some items fit on no bin." : result.NoSheetLeft.Count > 0 ? "Some items are left out." : null);
        if (wrong is not null)
        {
            throw new InvalidOperationException(wrong);
        }
    }

    private static void Print(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));
}
