using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;

namespace PlateTickets.Benchmarks;

/// <summary>All six stages of a sheet, each on one machine, with explanation, settings and inputs.</summary>
[MemoryDiagnoser]
public class StageTimesBenchmark
{
    private static readonly DateTime Now = new(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);
    private static readonly SheetFacts Sheet = new(900, 1200, 870);
    private static readonly EquipmentFacts Machine = new()
    {
        Name = "Machine",
        BackLamps = new LampReading(14.9, Now.AddDays(-3)),
        FaceLamps = new LampReading(15.1, Now.AddDays(-3)),
        DrumRpm = 350,
        LaserChannels = 16,
        LineLengthMm = 1800,
        LineGapMm = 100,
    };

    private static readonly Handling Hands = new(60, 30);
    private static readonly RecipeSettings Recipe = new(
        new(Hands, 100, 15, 1.19), new(Hands, 2540, 80), new(Hands, 10_800), new(Hands, WashoutProcess.Solvent, 150, null, 0.4, 32),
        new(Hands, 5400, 10_800, 60, 1800), new(Hands, 480, 540, AtOnce: false));

    public static int Run()
    {
        // In this process: the tool would otherwise build a project of its own, which the checkout's settings forbid.
        BenchmarkRunner.Run<StageTimesBenchmark>(DefaultConfig.Instance.AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance)));
        return 0;
    }

    [Benchmark]
    public double SixStages()
    {
        var total = 0.0;
        foreach (var station in Stations.InOrder)
        {
            total += StageTimes.Compute(station, Recipe, Machine, Sheet, Now).TotalSeconds;
        }

        return total;
    }
}
