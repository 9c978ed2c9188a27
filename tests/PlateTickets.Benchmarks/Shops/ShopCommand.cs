using System.Diagnostics;
using System.Globalization;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Checking;

namespace PlateTickets.Benchmarks.Shops;

/// <summary>Plans a published shop with the program's own planner and prints what it costs.</summary>
internal static class ShopCommand
{
    public static int Run(Func<string, ShopFile> read, string[] args)
    {
        var options = Options.Of(args, "--seconds", "--seed", "--due", "--out", "--workers");
        if (options.Files.Count != 1)
        {
            Console.Error.WriteLine("Name one file of a shop.");
            return 1;
        }

        try
        {
            var shop = read(options.Files[0]);
            shop = options.Text("--due") is { } due ? shop.WithDue(due) : shop;
            var watch = Stopwatch.StartNew();
            var plan = PlanImprover.Improve(
                shop.Request, new ImproveOptions(TimeSpan.FromSeconds(options.Number("--seconds", 30)), (int)options.Number("--seed", 1), (int)options.Number("--workers", 2)), TimeProvider.System);
            var found = PlanChecker.Violations(shop.Request, plan);
            var first = DispatchPlanner.Build(shop.Request);
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"{Path.GetFileNameWithoutExtension(options.Files[0])} {(shop.Request.Goal == PlanGoal.Makespan ? "makespan" : "weighted tardiness")} {Value(shop, plan)} first {Value(shop, first)} seconds {watch.Elapsed.TotalSeconds:0.0} violations {found.Count}"));
            if (options.Text("--out") is { } path)
            {
                Write(shop, plan, path);
            }

            return found.Count == 0 ? 0 : 1;
        }
        catch (Exception e) when (e is FormatException or IOException or PlanException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine(e.Message);
            return 1;
        }
    }

    // Counted from the stages, not taken from the planner.
    private static double Value(ShopFile shop, Plan plan)
    {
        var end = plan.Stages.GroupBy(s => s.SheetId).ToDictionary(g => g.Key, g => (g.Max(s => s.FinishUtc) - ShopFile.Zero).TotalSeconds);
        return shop.Request.Goal == PlanGoal.Makespan
            ? end.Values.Max()
            : shop.Request.Sheets.Sum(s => s.Weight * Math.Max(0, end[s.Id] - (s.DueUtc - ShopFile.Zero).TotalSeconds));
    }

    private static void Write(ShopFile shop, Plan plan, string path)
    {
        using var csv = new StreamWriter(path);
        csv.Write("job,operation,machine,start,end\n");
        foreach (var s in plan.Stages.OrderBy(s => s.StageId))
        {
            csv.Write(string.Create(
                CultureInfo.InvariantCulture,
                $"{s.SheetId},{s.StageId - ShopFile.StageId(s.SheetId, 0)},{shop.MachineOf(s)},{(s.StartUtc - ShopFile.Zero).TotalSeconds:0},{(s.FinishUtc - ShopFile.Zero).TotalSeconds:0}\n"));
        }
    }
}
