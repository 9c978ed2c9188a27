using System.Diagnostics;
using Google.OrTools.Sat;

namespace PlateTickets.Benchmarks.Ovens;

/// <summary>Plans a published oven instance, checks the batches and prints what they cost.</summary>
internal static class OvenCommand
{
    public static int Run(string[] args)
    {
        var options = Options.Of(args, "--seconds", "--seed", "--out", "--workers", "--cool", "--rounds", "--heat", "--cp");
        if (options.Files.Count != 1)
        {
            Console.Error.WriteLine("Name one file of an oven instance.");
            return 1;
        }

        var oven = OvenFile.Read(options.Files[0]);
        var watch = Stopwatch.StartNew();
        var first = OvenFirst.Build(oven);
        var ms = watch.Elapsed.TotalMilliseconds;
        var sa = Enumerable.Range(0, 2).Select(i => new OvenAnnealing(oven, first, i + (int)options.Number("--seed", 1))).ToArray();
        var f = sa[0].BestTotal;
        var rounds = (int)options.Number("--rounds", 1);
        for (var r = 0; r < rounds; r++)
        {
            var b0 = sa.MinBy(s => s.BestTotal)!.Best; if (r > 0) { foreach (var s in sa) { s.Restart(b0); } } Parallel.ForEach(sa, s => s.Cool(TimeSpan.FromSeconds(options.Number("--cool", 3) / (rounds+1) * (r == 0 ? 2 : 1)), r == 0 ? 0.5 : options.Number("--heat", 0.5)));
            Console.WriteLine($"   {string.Join(" ", sa.Select(s => s.BestTotal))}");
        }
        var best = sa.MinBy(s => s.BestTotal)!;
        var goal = OvenChecker.Goal(oven, best.Best);
        Console.WriteLine($"{oven.Name} first {f} {ms:0.0} best {best.BestTotal} {goal} moves {sa.Sum(s => s.Moves)} " + string.Join(";", OvenChecker.Violations(oven, best.Best)));
        foreach (var timed in new[] { false, true })
        {
            if (options.Number("--cp", 0) == 0) { break; }
            watch.Restart();
            var model = new OvenModel(oven, timed);
            if (timed) { model.Hint(best.Best); }
            using var solver = new CpSolver();
            solver.StringParameters = PlateTickets.Planning.Scheduling.Engine.CpParameters.For(TimeSpan.FromSeconds(options.Number("--cp", 20)), 2, 1);
            var status = solver.Solve(model.Model);
            Console.WriteLine($"  {timed} {status} {solver.ObjectiveValue} bound {solver.BestObjectiveBound} {watch.Elapsed.TotalSeconds:0.0}");
        }
        return 0;
    }
}
