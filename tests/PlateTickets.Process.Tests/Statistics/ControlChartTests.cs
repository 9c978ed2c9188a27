using MathNet.Numerics.Distributions;
using PlateTickets.Process.Statistics;

namespace PlateTickets.Process.Tests.Statistics;

public class ControlChartTests
{
    // The 25 samples in control of the data set "pistonrings" of the R package qcc (Montgomery, Introduction to Statistical Quality Control, 2nd ed.).
    private static readonly double[][] PistonRings =
    [
        [74.030, 74.002, 74.019, 73.992, 74.008], [73.995, 73.992, 74.001, 74.011, 74.004], [73.988, 74.024, 74.021, 74.005, 74.002], [74.002, 73.996, 73.993, 74.015, 74.009],
        [73.992, 74.007, 74.015, 73.989, 74.014], [74.009, 73.994, 73.997, 73.985, 73.993], [73.995, 74.006, 73.994, 74.000, 74.005], [73.985, 74.003, 73.993, 74.015, 73.988],
        [74.008, 73.995, 74.009, 74.005, 74.004], [73.998, 74.000, 73.990, 74.007, 73.995], [73.994, 73.998, 73.994, 73.995, 73.990], [74.004, 74.000, 74.007, 74.000, 73.996],
        [73.983, 74.002, 73.998, 73.997, 74.012], [74.006, 73.967, 73.994, 74.000, 73.984], [74.012, 74.014, 73.998, 73.999, 74.007], [74.000, 73.984, 74.005, 73.998, 73.996],
        [73.994, 74.012, 73.986, 74.005, 74.007], [74.006, 74.010, 74.018, 74.003, 74.000], [73.984, 74.002, 74.003, 74.005, 73.997], [74.000, 74.010, 74.013, 74.020, 74.003],
        [73.988, 74.001, 74.009, 74.005, 73.996], [74.004, 73.999, 73.990, 74.006, 74.009], [74.010, 73.989, 73.990, 74.009, 74.014], [74.015, 74.008, 73.993, 74.000, 74.010],
        [73.982, 73.984, 73.995, 74.017, 74.013],
    ];

    /// <summary>NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2, flow rate of ten batches: all figures as printed there.</summary>
    [Fact]
    public void Individuals_OfTheHandbooksExample()
    {
        var chart = ControlChart.OfIndividuals([49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]);
        Assert.Equal(50.81, chart.Place.Centre, 1e-9);
        Assert.Equal(1.8778, chart.Spread.Centre, 5e-5);
        Assert.All(chart.Place.Points, p => Assert.Equal((45.8159, 55.8041), (Math.Round(p.Lower, 4), Math.Round(p.Upper, 4))));
        Assert.Equal([2.0, 2.3, 1.4, 3.5, 3.4, 1.4, 0.2, 1.2, 1.5], chart.Spread.Points.Select(p => Math.Round(p.Value, 9)));
        // D4 of two is 3.267.
        Assert.All(chart.Spread.Points, p => Assert.Equal(3.267 * 1.8778, p.Upper, 5e-3));
        // "the process is in control, since none of the plotted points fall outside either the UCL or LCL".
        Assert.DoesNotContain(chart.Signals, s => s.Rule is ControlRule.BeyondThree or ControlRule.SpreadOutside);
    }

    /// <summary>The limits that the R package qcc prints for its data set "pistonrings" (repeated by the Python package mistat's tests).</summary>
    [Fact]
    public void Samples_OfThePistonRings()
    {
        var chart = ControlChart.OfSamples(PistonRings);
        Assert.Equal(74.00118, chart.Place.Centre, 5e-6);
        Assert.Equal(0.009785039, chart.Sigma, 5e-7);
        Assert.All(chart.Place.Points, p =>
        {
            Assert.Equal(73.98805, p.Lower, 5e-6);
            Assert.Equal(74.0143, p.Upper, 5e-5);
        });
        Assert.Equal(0.02276, chart.Spread.Centre, 1e-9);
        Assert.All(chart.Spread.Points, p => Assert.Equal((0, 0.0481), (p.Lower, Math.Round(p.Upper, 4))));
        Assert.DoesNotContain(chart.Signals, s => s.Rule is ControlRule.BeyondThree or ControlRule.SpreadOutside);

        // qcc's process.capability with limits 73.95 and 74.05: Cp 1.703, Cp_k 1.663.
        var summary = Summary.Of([.. PistonRings.SelectMany(s => s)]);
        var capability = Capability.Of(73.95, 74.05, summary.Mean, chart.Sigma, summary.Deviation)!;
        Assert.Equal(1.703, capability.Cp!.Value, 5e-4);
        Assert.Equal(1.663, capability.Cpk, 5e-4);
    }

    [Fact]
    public void Samples_OfSeveralSizes_HaveLimitsOfTheirOwn()
    {
        var chart = ControlChart.OfSamples([[1, 3], [2, 2, 4, 4], [1, 2, 3]]);
        Assert.Equal((2 / 1.128 + 2 / 2.059 + 2 / 1.693) / 3, chart.Sigma, 1e-12);
        Assert.Equal(22 / 9.0, chart.Place.Centre, 1e-12);
        Assert.Equal(chart.Place.Centre + (3 * chart.Sigma / 2), chart.Place.Points[1].Upper, 1e-12);
        Assert.True(chart.Place.Points[0].Upper > chart.Place.Points[1].Upper);
    }

    [Fact]
    public void RangeOutside_IsASignal_AndEqualValuesGiveNone()
    {
        double[][] samples = [.. Enumerable.Range(0, 12).Select(i => new[] { 0.0, i == 7 ? 9.0 : 1.0 })];
        Assert.Contains(new ControlSignal(ControlRule.SpreadOutside, 7, 7), ControlChart.OfSamples(samples).Signals);
        Assert.Empty(ControlChart.OfIndividuals([5, 5, 5, 5, 5, 5, 5, 5, 5]).Signals);
    }

    [Fact]
    public void TooFewValues_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => ControlChart.OfIndividuals([1]));
        Assert.Throws<ArgumentException>(() => ControlChart.OfSamples([[1, 2]]));
        Assert.Throws<ArgumentException>(() => ControlChart.OfSamples([[1, 2], [3]]));
        Assert.Throws<ArgumentOutOfRangeException>(() => ControlFactors.For(26));
    }

    /// <summary>A2, D3 and D4 as printed in section 6.3.2.1 of the NIST/SEMATECH e-Handbook (from memory).</summary>
    [Theory]
    [InlineData(2, 1.880, 0, 3.267)]
    [InlineData(3, 1.023, 0, 2.575)]
    [InlineData(4, 0.729, 0, 2.282)]
    [InlineData(5, 0.577, 0, 2.115)]
    [InlineData(6, 0.483, 0, 2.004)]
    [InlineData(7, 0.419, 0.076, 1.924)]
    [InlineData(8, 0.373, 0.136, 1.864)]
    [InlineData(9, 0.337, 0.184, 1.816)]
    [InlineData(10, 0.308, 0.223, 1.777)]
    [InlineData(25, 0.153, 0.459, 1.541)]
    public void Factors_OfTheHandbook(int size, double a2, double d3, double d4)
    {
        var factors = ControlFactors.For(size);
        Assert.Equal(a2, factors.Averages, 1e-3);
        Assert.Equal(d3, factors.LowerRange, 2e-3);
        Assert.Equal(d4, factors.UpperRange, 2e-3);
    }

    /// <summary>d2 and d3 from their definitions: expectation and standard deviation of the range of a normal sample (Tippett 1925), integrated.</summary>
    [Theory]
    [MemberData(nameof(Sizes))]
    public void Factors_AreTheIntegralsThatDefineThem(int size)
    {
        const double end = 6, step = 0.02;
        var x = Enumerable.Range(0, (int)(2 * end / step) + 1).Select(i => -end + (i * step)).ToArray();
        var phi = x.Select(v => Normal.CDF(0, 1, v)).ToArray();
        var mean = 0.0;
        var square = 0.0;
        for (var i = 0; i < x.Length; i++)
        {
            mean += step * (1 - Math.Pow(phi[i], size) - Math.Pow(1 - phi[i], size));
            for (var j = i; j < x.Length; j++)
            {
                var below = 1 - Math.Pow(phi[j], size) - Math.Pow(1 - phi[i], size) + Math.Pow(phi[j] - phi[i], size);
                square += 2 * step * step * below * (i == j ? 0.5 : 1);
            }
        }

        Assert.Equal(mean, ControlFactors.For(size).D2, 6e-4);
        Assert.Equal(Math.Sqrt(square - (mean * mean)), ControlFactors.For(size).D3OfRange, 6e-4);
    }

    public static TheoryData<int> Sizes => new(Enumerable.Range(ControlFactors.Fewest, ControlFactors.Most - ControlFactors.Fewest + 1));
}
