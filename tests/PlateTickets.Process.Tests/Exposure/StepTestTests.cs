using PlateTickets.Process.Exposure;

namespace PlateTickets.Process.Tests.Exposure;

public class StepTestTests
{
    // Exact data of a published resin (Bennett, NIST, Additive Manufacturing 18 (2017) 203-212: Dp 0.146 mm, Ec 5.20 mJ/cm2 at 365 nm) at doses of
    // 10 to 160 mJ/cm2 must give back Dp and Ec.
    [Fact]
    public void ExactData_GiveDpAndEcBack()
    {
        var curve = new WorkingCurve(0.146, 5.2);
        var fit = Test(1, [.. new[] { 10.0, 20, 40, 80, 160 }.Select(e => new StepTestPoint(e, 0.125 + curve.DepthMm(e)))]).Curve();
        Assert.Equal(0.146, fit.Curve.DpMm, 1e-9);
        Assert.Equal(5.20, fit.Curve.EcMjPerCm2, 1e-7);
        Assert.Equal(1, fit.RSquared, 1e-12);
        Assert.Equal(0, fit.ResidualMm, 1e-9);
        // The same resin needs 20.46 mJ/cm2 for 0.200 mm (computed).
        Assert.Equal(20.46, fit.TimeFor(0.325, 1).Seconds, 0.005);
        // The depths themselves, in micrometres (computed).
        Assert.Equal([95.5, 196.7, 297.9, 399.1, 500.3], new[] { 10.0, 20, 40, 80, 160 }.Select(e => Math.Round(curve.DepthMm(e) * 1000, 1)));
    }

    [Fact]
    public void TimeFor_ScalesWithTheLamp_AndSaysWhenItExtrapolates()
    {
        var fit = Usual().Curve();
        var inside = fit.TimeFor(1.0, 15);
        Assert.False(inside.Extrapolated);
        Assert.True(inside.LowSeconds < inside.Seconds && inside.Seconds < inside.HighSeconds);
        Assert.Equal(inside.Seconds * 15 / 12, fit.TimeFor(1.0, 12).Seconds, 1e-9);
        var outside = fit.TimeFor(1.6, 15);
        Assert.True(outside.Extrapolated);
        Assert.Contains("outside the tested", outside.Explanation, StringComparison.Ordinal);
        Assert.Equal(1.0, fit.FloorAt(inside.Seconds * 15).FloorMm, 1e-9);
    }

    [Fact]
    public void Band_IsNarrowestInTheMiddleOfTheTest()
    {
        var fit = Usual().Curve();
        var (low, high) = fit.TestedMjPerCm2;
        var middle = fit.FloorAt(Math.Sqrt(low * high)).HalfBandMm;
        Assert.True(middle < fit.FloorAt(low).HalfBandMm);
        Assert.True(middle < fit.FloorAt(high).HalfBandMm);
        Assert.True(fit.FloorAt(low, 0.99).HalfBandMm > fit.FloorAt(low, 0.8).HalfBandMm);
    }

    [Fact]
    public void LongerExposure_GivesAHigherFloor()
    {
        var fit = Usual().Curve();
        var times = Enumerable.Range(1, 50).Select(i => fit.TimeFor(0.2 + (i * 0.025), 15).Seconds).ToList();
        Assert.Equal(times.Order(), times);
    }

    [Fact]
    public void DegenerateTests_AreExplained()
    {
        Says("only one time", Test(15, [new(60, 0.8), new(60, 0.82), new(60, 0.81)]));
        Says("2 different times", Test(15, [new(60, 0.8), new(80, 0.9), new(80, 0.91)]));
        Says("The floors fall with longer exposure", Test(15, [new(40, 1.2), new(60, 1.0), new(80, 0.8)]));
        Says("is not below the plate thickness of 1.70 mm", Test(15, [new(40, 0.7), new(60, 0.9), new(80, 1.70)]));
        Says("is not above the base of 0.13 mm", Test(15, [new(40, 0.1), new(60, 0.9), new(80, 1.0)]));
        Says("Step 2 has no time above 0 s", Test(15, [new(40, 0.7), new(0, 0.9), new(80, 1.0)]));
        Says("The lamp reading of the test is missing", Test(0, [new(40, 0.7), new(60, 0.9), new(80, 1.0)]));
        Refusals.Says("is not between the base", () => Usual().Curve().TimeFor(1.75, 15));
    }

    [Fact]
    public void OneFallingStep_IsADoubt_NotARefusal()
    {
        var test = Test(15, [new(40, 0.7), new(60, 0.95), new(80, 0.9), new(100, 1.1)]);
        Assert.Empty(test.Refusals());
        Assert.Contains("measure these two steps again", Assert.Single(test.Doubts()), StringComparison.Ordinal);
    }

    private static StepTest Usual() => Test(15, [new(40, 0.72), new(60, 0.93), new(80, 1.05), new(100, 1.19), new(120, 1.27), new(140, 1.37)]);

    private static StepTest Test(double irradiance, StepTestPoint[] points) => new(irradiance, 1.70, 0.125, points);

    private static void Says(string words, StepTest test) => Assert.Contains(words, Assert.Throws<PlateRoomException>(test.Curve).Message, StringComparison.Ordinal);
}
