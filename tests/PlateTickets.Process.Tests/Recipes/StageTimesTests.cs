using PlateTickets.Process.Imaging;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Process.Washout;

namespace PlateTickets.Process.Tests.Recipes;

public class StageTimesTests
{
    private static readonly DateTime Now = new(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc);
    private static readonly Handling Hands = new(60, 30);
    private static readonly SheetFacts Sheet = new(900, 1200, 870);

    private static readonly EquipmentFacts Frame = new()
    {
        Name = "Frame 1",
        BackLamps = new LampReading(15, Now.AddDays(-3)),
        FaceLamps = new LampReading(15, Now.AddDays(-3)),
    };

    private static readonly EquipmentFacts Imager = new() { Name = "Imager A", DrumRpm = 350, LaserChannels = 16 };
    private static readonly EquipmentFacts Line = new() { Name = "Line washer", LineLengthMm = 1800, LineGapMm = 100 };

    private static readonly RecipeSettings Solvent = new(
        new(Hands, 100, 15, 1.19), new(Hands, 2540, 80), new(Hands, 10_800), new(Hands, WashoutProcess.Solvent, 150, null, 0.4, 32),
        new(Hands, 5400, 10_800, 60, 1800), new(Hands, 480, 540, AtOnce: false));

    /// <summary>
    /// Common practice for a 1.70 mm solvent plate on a 900 x 1200 mm sheet: back exposure about 100 s, face exposure about 12 min,
    /// drying one to two hours; a plate of 0.067 in is 1.70 mm.
    /// </summary>
    [Fact]
    public void SolventSheet_IsNearCommonPractice()
    {
        Assert.Equal(100, Run(Station.BackExposure, Frame), 9);
        Assert.Equal(12 * 60, Run(Station.FaceExposure, Frame), 9);
        Assert.InRange(Run(Station.Drying, new EquipmentFacts { Name = "Dryer" }), 3600, 7200);
        Assert.Equal(1.70, 0.067 * 25.4, 0.005);
    }

    [Fact]
    public void Cutting_TakesItsTimeForEachPlate_ByHand()
    {
        var time = StageTimes.Compute(Station.Cutting, Solvent with { Cutting = new(Hands, 120) }, new EquipmentFacts { Name = "Table" }, Sheet with { Plates = 5 }, Now);
        Assert.Equal(600, time.RunSeconds);
        Assert.True(time.RunIsAttended);
        Assert.Equal("10 min = 5 plates × 2 min each, Table", time.Explanation);
    }

    [Fact]
    public void RecipeWithoutCutting_SaysSo() => Refusals.Says(
        "This recipe has no cutting", () => StageTimes.Compute(Station.Cutting, Solvent, new EquipmentFacts { Name = "Table" }, Sheet, Now));

    [Fact]
    public void Inches_ChangeTheWordsAndNotTheTimes()
    {
        foreach (var (station, machine) in new[] { (Station.BackExposure, Frame), (Station.Imaging, Imager), (Station.Washout, Line) })
        {
            var metric = StageTimes.Compute(station, Solvent, machine, Sheet, Now);
            var inch = StageTimes.Compute(station, Solvent, machine, Sheet, Now, LengthSystem.Inch);
            Assert.Equal(metric.RunSeconds, inch.RunSeconds);
            var text = string.Join(' ', [inch.Explanation, .. inch.Settings.Select(s => s.Value), .. inch.Inputs.Select(i => i.Value)]);
            Assert.DoesNotContain(" mm", text, StringComparison.Ordinal);
            Assert.Contains(" in", text, StringComparison.Ordinal);
        }

        Assert.Equal(
            "20 min = (47.244 in sheet + 70.866 in line) / 5.906 in/min, Line washer",
            StageTimes.Compute(Station.Washout, Solvent, Line, Sheet, Now, LengthSystem.Inch).Explanation);
    }

    // Pixel pitch in micrometres is 25 400 / ppi: 2 540 ppi 10.00, 2 400 ppi 10.583, 4 000 ppi 6.350, 5 080 ppi 5.00 (computed).
    [Theory]
    [InlineData(2540, 10.0)]
    [InlineData(2400, 10.583)]
    [InlineData(4000, 6.350)]
    [InlineData(5080, 5.0)]
    public void PixelPitch_OfAResolution(double ppi, double micrometres) => Assert.Equal(micrometres, DrumImaging.PixelPitchMm(ppi) * 1000, 0.0005);

    // An area of 900 x 1200 mm at 4 m2/h takes 16.2 min (computed); on a drum of 1200 mm that is a feed of 900 mm / 16.2 min.
    [Fact]
    public void Imaging_AgreesWithTheAreaRate() => Assert.Equal(16.2 * 60, DrumImaging.Seconds(900, 4_000_000 / 60.0 / 1200), 6);

    [Fact]
    public void Imaging_CountsOnlyTheAxialExtent()
    {
        // 0.010 mm x 16 channels x 350 rev/min = 56 mm/min.
        Assert.Equal(56, DrumImaging.FeedMmPerMin(2540, 16, 350), 9);
        Assert.Equal(870 / 56.0 * 60, Run(Station.Imaging, Imager), 6);
        var longer = StageTimes.Compute(Station.Imaging, Solvent, Imager, Sheet with { LengthMm = 2000 }, Now);
        Assert.Equal(Run(Station.Imaging, Imager), longer.RunSeconds, 9);
    }

    [Fact]
    public void LineWasher_TimeInsideAndSpacing()
    {
        // (1200 + 1800) mm / 150 mm/min = 20 min; (1200 + 100) / 150 = 8 min 40 s.
        var time = StageTimes.Compute(Station.Washout, Solvent, Line, Sheet, Now);
        Assert.Equal(20 * 60, time.RunSeconds, 9);
        Assert.Equal(520, time.OccupiesRunSeconds, 9);
        Assert.Equal(LineWasher.SpacingSeconds(1200, 100, 150), time.OccupiesRunSeconds, 9);
    }

    [Fact]
    public void PostFinish_SumOrLonger()
    {
        var finisher = new EquipmentFacts { Name = "Finisher" };
        Assert.Equal(1020, Run(Station.PostFinish, finisher), 9);
        var atOnce = Solvent with { PostFinish = Solvent.PostFinish with { AtOnce = true } };
        Assert.Equal(540, StageTimes.Compute(Station.PostFinish, atOnce, finisher, Sheet, Now).RunSeconds, 9);
    }

    [Fact]
    public void Explanation_SaysTimeFormulaMachineAndReading() => Assert.Equal(
        "12 min = 10\u00a0800 mJ/cm² / 15 mW/cm², Frame 1, read 22 Nov 2026",
        StageTimes.Compute(Station.FaceExposure, Solvent, Frame, Sheet, Now).Explanation);

    [Fact]
    public void EveryTime_CarriesItsFormulaAndWhereItsNumbersComeFrom()
    {
        foreach (var (station, machine) in new[]
        {
            (Station.BackExposure, Frame), (Station.Imaging, Imager), (Station.FaceExposure, Frame), (Station.Washout, Line),
            (Station.Drying, new EquipmentFacts { Name = "Dryer" }), (Station.PostFinish, new EquipmentFacts { Name = "Finisher" }),
        })
        {
            var time = StageTimes.Compute(station, Solvent, machine, Sheet, Now);
            Assert.StartsWith("time = ", time.Formula, StringComparison.Ordinal);
            Assert.NotEmpty(time.Inputs);
            Assert.All(time.Inputs, i => Assert.False(string.IsNullOrWhiteSpace(i.Value) || string.IsNullOrWhiteSpace(i.From)));
        }

        Assert.Contains(StageTimes.Compute(Station.FaceExposure, Solvent, Frame, Sheet, Now).Inputs, i => i.From == "Frame 1, read 22 Nov 2026");
    }

    [Fact]
    public void LongestWait_IsASettingToKeep()
    {
        var limited = Solvent with { BackExposure = Solvent.BackExposure with { Handling = Hands with { LongestWaitAfterSeconds = 2 * 86_400 } } };
        var time = StageTimes.Compute(Station.BackExposure, limited, Frame, Sheet, Now);
        Assert.Contains(new Setting("Next stage within", "2 d"), time.Settings);
        var never = limited with { BackExposure = limited.BackExposure with { Handling = Hands with { LongestWaitAfterSeconds = 0 } } };
        Refusals.Says("The longest wait is 0 s", () => StageTimes.Compute(Station.BackExposure, never, Frame, Sheet, Now));
    }

    [Fact]
    public void OldReading_IsFlagged_AndAMissingOneToo()
    {
        var old = Frame with { FaceLamps = new LampReading(15, Now.AddDays(-8)), BackLamps = null };
        Assert.Contains("older than 7 d", Assert.Single(StageTimes.Compute(Station.FaceExposure, Solvent, old, Sheet, Now).Flags), StringComparison.Ordinal);
        var back = StageTimes.Compute(Station.BackExposure, Solvent, old, Sheet, Now);
        Assert.Equal(100, back.RunSeconds);
        Assert.Contains("no reading of its back lamps", Assert.Single(back.Flags), StringComparison.Ordinal);
        Assert.Empty(StageTimes.Compute(Station.FaceExposure, Solvent, Frame, Sheet, Now).Flags);
    }

    [Fact]
    public void MissingMachineValues_AreRefusedWithWhatToEnter()
    {
        var bare = new EquipmentFacts { Name = "Machine 7" };
        Refusals.Says("Machine 7 has no reading of its face lamps", () => StageTimes.Compute(Station.FaceExposure, Solvent, bare, Sheet, Now));
        Refusals.Says("Machine 7 has no drum speed", () => StageTimes.Compute(Station.Imaging, Solvent, bare, Sheet, Now));
        Refusals.Says("Machine 7 has no line length or gap", () => StageTimes.Compute(Station.Washout, Solvent, bare, Sheet, Now));
        var both = Solvent with { Washout = Solvent.Washout with { BatchSeconds = 60 } };
        Refusals.Says("both or neither", () => StageTimes.Compute(Station.Washout, both, Line, Sheet, Now));
        Refusals.Says("has no drying", () => StageTimes.Compute(Station.Drying, Solvent with { Drying = null }, bare, Sheet, Now));
    }

    [Fact]
    public void ThermalRecipe_HasNoDryingInItsRoute() =>
        Assert.DoesNotContain(Station.Drying, (Solvent with { Drying = null }).Route);

    [Fact]
    public void AnyPossibleInput_GivesAFiniteTimeAboveZero()
    {
        var random = new Random(3);
        for (var i = 0; i < 3000; i++)
        {
            var frame = Frame with { FaceLamps = new LampReading(0.01 + (100 * random.NextDouble()), Now), BackLamps = new LampReading(0.01 + (100 * random.NextDouble()), Now) };
            var sheet = new SheetFacts(100 + (1900 * random.NextDouble()), 100 + (1900 * random.NextDouble()), 50 + (1900 * random.NextDouble()));
            foreach (var (station, machine) in new[] { (Station.BackExposure, frame), (Station.FaceExposure, frame), (Station.Imaging, Imager), (Station.Washout, Line) })
            {
                var time = StageTimes.Compute(station, Solvent, machine, sheet, Now);
                Assert.True(double.IsFinite(time.RunSeconds) && time.RunSeconds > 0);
                Assert.True(time.OccupiesRunSeconds <= time.RunSeconds);
            }
        }
    }

    private static double Run(Station station, EquipmentFacts machine) => StageTimes.Compute(station, Solvent, machine, Sheet, Now).RunSeconds;
}
