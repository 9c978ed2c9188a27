using PlateTickets.Process.Statistics;

namespace PlateTickets.Process.Tests.Statistics;

public class LineFitTests
{
    // NIST Statistical Reference Datasets, linear regression, "Norris" (observed data, 36 observations): certified values. Data and values
    // from memory; that the fit gives all certified digits back confirms both.
    private static readonly double[] X =
    [
        0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6,
        120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ];

    private static readonly double[] Y =
    [
        0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8,
        119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
    ];

    [Fact]
    public void Norris_CertifiedValues()
    {
        var fit = new LineFit(X, Y);
        Assert.Equal(-0.262323073774029, fit.Intercept, 1e-11);
        Assert.Equal(1.00211681802045, fit.Slope, 1e-13);
        Assert.Equal(0.884796396144373, fit.ResidualStandardDeviation, 1e-11);
        Assert.Equal(0.999993745883712, fit.RSquared, 1e-13);
        // Certified standard deviations of the estimates: intercept 0.232818234301152. It is the band at x = 0 without the quantile.
        var t = MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, 34, 0.975);
        Assert.Equal(0.232818234301152, fit.HalfBand(0, 0.95) / t, 1e-10);
    }

    [Fact]
    public void XFor_InvertsTheLine_AndItsEndsLieOnTheBand()
    {
        var fit = new LineFit([1, 2, 3, 4, 5], [2.1, 3.9, 6.2, 7.8, 10.1]);
        var (x, low, high) = fit.XFor(6.5, 0.95);
        Assert.Equal(6.5, fit.At(x), 1e-12);
        Assert.Equal(6.5, fit.At(low!.Value) + fit.HalfBand(low.Value, 0.95), 1e-9);
        Assert.Equal(6.5, fit.At(high!.Value) - fit.HalfBand(high.Value, 0.95), 1e-9);
    }

    [Fact]
    public void TooUncertainASlope_GivesNoEnds()
    {
        var (_, low, high) = new LineFit([1, 2, 3], [1, 5, 1.5]).XFor(4, 0.95);
        Assert.Null(low);
        Assert.Null(high);
    }
}
