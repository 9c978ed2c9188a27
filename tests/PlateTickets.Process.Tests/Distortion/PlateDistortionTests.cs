using PlateTickets.Process.Distortion;

namespace PlateTickets.Process.Tests.Distortion;

public class PlateDistortionTests
{
    // Trade magazine NV Publications, "plate distortion (stretch) factors": 2 x 3.1416 x plate thickness / repeat length, which is
    // K with a base of 0. The columns with a base are the same geometry, computed by hand from K = 2 pi (t - b).
    [Theory]
    [InlineData(1.14, 7.163, 6.377, 6.063)]
    [InlineData(1.70, 10.681, 9.896, 9.582)]
    [InlineData(2.72, 17.090, 16.305, 15.991)]
    [InlineData(2.84, 17.844, 17.059, 16.745)]
    [InlineData(3.18, 19.981, 19.195, 18.881)]
    [InlineData(3.94, 24.756, 23.970, 23.656)]
    [InlineData(6.35, 39.898, 39.113, 38.799)]
    public void K_Table(double thickness, double noBase, double base125, double base175)
    {
        Assert.Equal(noBase, PlateDistortion.KMm(thickness, 0), 0.0006);
        Assert.Equal(base125, PlateDistortion.KMm(thickness, 0.125), 0.0006);
        Assert.Equal(base175, PlateDistortion.KMm(thickness, 0.175), 0.0006);
    }

    // Worked examples, computed by hand: 0.067 in plate, 0.005 in base, 120 teeth of 1/8 in = 15 in repeat; and three metric ones.
    [Theory]
    [InlineData(0.067 * 25.4, 0.005 * 25.4, 15 * 25.4, 2.5970, 14.6104 * 25.4)]
    [InlineData(0.067 * 25.4, 0, 15 * 25.4, 2.8065, 14.5790 * 25.4)]
    [InlineData(1.70, 0.125, 400, 2.4740, 390.104)]
    [InlineData(1.14, 0.125, 300, 2.1258, 293.623)]
    [InlineData(6.35, 0.175, 1600, 2.4249, 1561.201)]
    public void FlatLength_WorkedExamples(double thickness, double filmBase, double repeat, double shrinkPercent, double flat)
    {
        Assert.Equal(shrinkPercent, (1 - PlateDistortion.Factor(repeat, thickness, filmBase)) * 100, 0.00006);
        Assert.Equal(flat, PlateDistortion.FlatLengthMm(repeat, thickness, filmBase), 0.0015);
    }

    [Fact]
    public void Repeat_FromTeeth_FromModule_FromCylinder()
    {
        // 120 teeth of 1/8 in circular pitch are 15 in (common practice).
        Assert.Equal(381, PlateDistortion.RepeatFromPitchMm(120, 25.4 / 8), 9);
        // A metric module m has the circular pitch pi m (ISO 54, definition of the module).
        Assert.Equal(Math.PI * 100, PlateDistortion.RepeatFromModuleMm(100, 1), 9);
        Assert.Equal(Math.PI * (100 + (2 * (0.55 + 1.7))), PlateDistortion.RepeatFromCylinderMm(100, 0.55, 1.7), 9);
    }

    [Theory]
    [InlineData(0, 0, "The plate thickness is 0 mm, but must be above 0 mm")]
    [InlineData(double.NaN, 0, "The plate thickness is not a number")]
    [InlineData(1.7, 1.7, "must be thinner than the plate")]
    [InlineData(1.7, -0.1, "must be thinner than the plate")]
    public void K_ImpossibleValues_AreRefused(double thickness, double filmBase, string words) =>
        Refusals.Says(words, () => PlateDistortion.KMm(thickness, filmBase));

    [Theory]
    [InlineData(9.8, "is too short for a plate of 1.7 mm")]
    [InlineData(0, "The repeat is 0 mm")]
    [InlineData(double.PositiveInfinity, "The repeat is")]
    public void FlatLength_ImpossibleRepeat_IsRefused(double repeat, string words) =>
        Refusals.Says(words, () => PlateDistortion.FlatLengthMm(repeat, 1.7, 0.125));

    [Fact]
    public void Factor_IsMonotone()
    {
        // Thicker plates stretch more, longer repeats less.
        var random = new Random(1);
        for (var i = 0; i < 2000; i++)
        {
            var thickness = 0.5 + (6 * random.NextDouble());
            var repeat = 100 + (1900 * random.NextDouble());
            var factor = PlateDistortion.Factor(repeat, thickness, 0.125);
            Assert.InRange(factor, 0, 1);
            Assert.True(PlateDistortion.Factor(repeat, thickness + 0.1, 0.125) < factor);
            Assert.True(PlateDistortion.Factor(repeat + 1, thickness, 0.125) > factor);
        }
    }
}
