using System.Diagnostics;

namespace PlateTickets.Benchmarks.Ovens;

/// <summary>Plans a published oven instance, checks the batches and prints what they cost.</summary>
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

        var oven = OvenFile.Read(options.Files[0]);
        var within = TimeSpan.FromSeconds(options.Number("--seconds", 30));
        var watch = Stopwatch.StartNew();
        var first = OvenFirst.Build(oven);
        var ms = watch.Elapsed.TotalMilliseconds;
        var sa = Enumerable.Range(0, 2).Select(i => new OvenAnnealing(oven, first, i + 1)).ToArray();
        var f = sa[0].BestTotal;
        for (var r = 0; r < 3; r++)
        {
            Parallel.ForEach(sa, s => s.Cool(within / 3, 0.5));
            Console.WriteLine($"   {string.Join(" ", sa.Select(s => s.BestTotal))}");
        }
        var best = sa.MinBy(s => s.BestTotal)!;
        var goal = OvenChecker.Goal(oven, best.Best);
        Console.WriteLine($"{oven.Name} first {f} {ms:0.0} best {best.BestTotal} {goal} moves {sa.Sum(s => s.Moves)} " + string.Join(";", OvenChecker.Violations(oven, best.Best)));
        return 0;
    }
}
