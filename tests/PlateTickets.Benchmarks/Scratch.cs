using System.Diagnostics;
using PlateTickets.Benchmarks.Shops;
using PlateTickets.Planning.Scheduling.Engine;
namespace PlateTickets.Benchmarks;
internal static class Scratch
{
    public static int Run(string[] args)
    {
        var o = Options.Of(args, "--due", "--seconds", "--seed");
        var f = ShopFile.JobShop(o.Files[0]);
        if (o.Text("--due") is { } d) { f = f.WithDue(d); }
        var shop = new Shop(f.Request);
        var first = new Planning.Scheduling.Dispatch(shop).Run();
        for (var seed = 1; seed <= 3; seed++)
        {
            var ls = new LocalSearch(shop, first, seed);
            var w = Stopwatch.StartNew();
            var last = "";
            while (w.Elapsed.TotalSeconds < o.Number("--seconds", 5)) { if (ls.Run(100)) { last = $"{ls.Best.Cost.Main:0}@{w.Elapsed.TotalSeconds:0.0}"; } }
            Console.WriteLine($"seed {seed} rounds/s {ls.Rounds / w.Elapsed.TotalSeconds:0} best {last}");
        }
        return 0;
    }
}
