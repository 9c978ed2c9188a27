using PlateTickets.Process.Statistics;

namespace PlateTickets.Process.Tests.Statistics;

public class SummaryTests
{
    public static TheoryData<string> Sets => new(NistData.All.Select(d => d.Name));

    [Theory]
    [MemberData(nameof(Sets))]
    public void NistReferenceData_CertifiedValues(string name)
    {
        var set = NistData.All.Single(d => d.Name == name);
        var summary = Summary.Of(set.Values);
        Assert.Equal(set.Mean, summary.Mean, set.MeanWithin);
        Assert.Equal(set.Deviation, summary.Deviation, set.DeviationWithin);
        // With ten million in front the decimals .1 and .3 are themselves off by up to 1e-9 in binary, a hundred-millionth of the deviation.
        Assert.Equal(set.Autocorrelation, summary.Autocorrelation!.Value, name == "NumAcc4" ? 1e-7 : 1e-8);
    }

    [Fact]
    public void OneValue_HasNoSpread_AndEqualValuesNoCorrelation()
    {
        Assert.Equal(new Summary(1, 5, 0, null), Summary.Of([5]));
        Assert.Equal(new Summary(3, 5, 0, null), Summary.Of([5, 5, 5]));
        Assert.Throws<ArgumentException>(() => Summary.Of([]));
    }

    /// <summary>NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.6.2, twelve gauge measurements (from memory): the 90th percentile is 95.1981.</summary>
    [Fact]
    public void Percentile_OfTheHandbooksExample()
    {
        double[] gauge = [95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682];
        Assert.Equal(95.1981, Percentile.Of(gauge, 0.9)!.Value, 5e-5);
    }

    [Theory]
    [InlineData(new[] { 7.0 }, 7)]
    [InlineData(new[] { 1.0, 9 }, 5)]
    [InlineData(new[] { 3.0, 1, 2 }, 2)]
    public void Percentile_Half_IsTheMedian(double[] values, double median) => Assert.Equal(median, Percentile.Of(values, 0.5));

    [Fact]
    public void Percentile_NeverLeavesTheValues_AndOfNothingIsNothing()
    {
        Assert.Equal(9, Percentile.Of([1, 9], 0.99));
        Assert.Null(Percentile.Of([], 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Percentile.Of([1], 1));
    }
}
