using PlateTickets.Process.Exposure;

namespace PlateTickets.Process.Tests.Exposure;

public class WorkingCurveTests
{
    // Bennett (NIST), Measuring UV curing parameters of commercial photopolymers used in additive manufacturing, Additive
    // Manufacturing 18 (2017) 203-212: Dp and Ec at 365 nm; the depths are computed from them.
    [Theory]
    [InlineData(0.042, 18.3, new[] { 0, 0.0037, 0.0422, 0.0713, 0.1389 })]
    [InlineData(0.146, 5.2, new[] { 0, 0.1967, 0.3305, 0.4317, 0.6666 })]
    [InlineData(0.186, 2.1, new[] { 0.1614, 0.4192, 0.5896, 0.7186, 1.0179 })]
    [InlineData(0.043, 0.7, new[] { 0.0845, 0.1442, 0.1836, 0.2134, 0.2826 })]
    [InlineData(0.095, 2.4, new[] { 0.0697, 0.2014, 0.2885, 0.3543, 0.5072 })]
    public void Depth_OfMeasuredResins(double dp, double ec, double[] depths)
    {
        var curve = new WorkingCurve(dp, ec);
        Assert.All(new[] { 5.0, 20, 50, 100, 500 }.Zip(depths), p => Assert.Equal(p.Second, curve.DepthMm(p.First), 0.00006));
    }

    // Gibson, Rosen and Stucker, Additive Manufacturing Technologies, p. 93: Dp 5.8 mil, exposure ratio 1.1123, 3 mil wanted: 2.383 mil.
    [Fact]
    public void Depth_TextbookExample() =>
        Assert.Equal(2.383, 3 - new WorkingCurve(5.8, 1).DepthMm(1.1123), 0.0005);

    // Same resin: 0.200 mm needs 20.46 mJ/cm2, 0.600 mm 316.8 mJ/cm2 (computed).
    [Theory]
    [InlineData(0.200, 20.46)]
    [InlineData(0.600, 316.8)]
    public void Dose_ForADepth(double depth, double dose) => Assert.Equal(dose, new WorkingCurve(0.146, 5.2).DoseMjPerCm2(depth), dose * 0.0005);

    [Fact]
    public void DoublingTheDose_AddsDpLn2_AndNothingCuresBelowEc()
    {
        var curve = new WorkingCurve(0.146, 5.2);
        Assert.Equal(0.146 * Math.Log(2), curve.DepthMm(80) - curve.DepthMm(40), 9);
        Assert.Equal(0, curve.DepthMm(5.2));
        Assert.Equal(0, curve.DepthMm(0));
        Assert.Equal(0.3, curve.DepthMm(curve.DoseMjPerCm2(0.3)), 12);
    }

    [Fact]
    public void ImpossibleValues_AreRefused()
    {
        Refusals.Says("The penetration depth Dp is 0 mm", () => new WorkingCurve(0, 5));
        Refusals.Says("The critical dose Ec is -1 mJ/cm²", () => new WorkingCurve(0.1, -1));
        Refusals.Says("The dose is -1 mJ/cm²", () => new WorkingCurve(0.1, 5).DepthMm(-1));
        Refusals.Says("far beyond this curve", () => new WorkingCurve(0.001, 5).DoseMjPerCm2(10));
    }
}
