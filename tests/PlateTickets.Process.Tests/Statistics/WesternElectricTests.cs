using MathNet.Numerics.Distributions;
using PlateTickets.Process.Statistics;

namespace PlateTickets.Process.Tests.Statistics;

public class WesternElectricTests
{
    [Theory]
    [InlineData(new[] { 0.5, 3.1, 0.2 }, "BeyondThree 1-1")]
    [InlineData(new[] { 0.5, -3.1, 0.2 }, "BeyondThree 1-1")]
    [InlineData(new[] { 3.0, -3.0 }, "")]
    [InlineData(new[] { 2.1, 0.2, 2.2 }, "TwoOfThreeBeyondTwo 0-2")]
    [InlineData(new[] { 2.1, 2.2, 0 }, "TwoOfThreeBeyondTwo 0-1")]
    [InlineData(new[] { 2.1, -2.2, 0 }, "")]
    [InlineData(new[] { 1.2, 1.2, -0.5, 1.2, 1.2 }, "FourOfFiveBeyondOne 0-4")]
    [InlineData(new[] { 1.2, 1.2, -0.5, 1.2, 0.9 }, "")]
    [InlineData(new[] { -0.1, -0.1, -0.1, -0.1, -0.1, -0.1, -0.1, -0.1 }, "EightOnOneSide 0-7")]
    [InlineData(new[] { 0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1 }, "")]
    [InlineData(new[] { 0.1, 0.1, 0.1, 0.0, 0.1, 0.1, 0.1, 0.1, 0.1 }, "")]
    public void Rules(double[] distances, string expected) =>
        Assert.Equal(expected, string.Join("; ", WesternElectric.Signals(distances).Select(s => $"{s.Rule} {s.From}-{s.At}")));

    [Fact]
    public void APatternThatGoesOn_IsToldOnce_AndAgainWhenItComesBack()
    {
        double[] distances = [.. Enumerable.Repeat(0.5, 12), -0.5, .. Enumerable.Repeat(0.5, 8)];
        Assert.Equal(
            [new ControlSignal(ControlRule.EightOnOneSide, 0, 7), new ControlSignal(ControlRule.EightOnOneSide, 13, 20)],
            WesternElectric.Signals(distances));
    }

    /// <summary>
    /// Section 6.3.2 of the NIST/SEMATECH e-Handbook (after Champ and Woodall, Technometrics 29, 1987; figures from memory): a process in control gives a
    /// false alarm every 91.75 points by all four rules, every 371 by the first alone. Normal random numbers of a fixed seed must show that.
    /// </summary>
    [Theory]
    [InlineData(false, 91.75)]
    [InlineData(true, 370.4)]
    public void FalseAlarms_ComeAsOftenAsPublished(bool firstRuleOnly, double points)
    {
        const int runs = 3000;
        var normal = new Normal(0, 1, new Random(1987));
        var total = 0;
        for (var run = 0; run < runs; run++)
        {
            var last = new Queue<double>();
            for (var length = 1; ; length++)
            {
                last.Enqueue(normal.Sample());
                if (last.Count > 8)
                {
                    last.Dequeue();
                }

                if (WesternElectric.Signals([.. last]).Any(s => s.At == last.Count - 1 && (!firstRuleOnly || s.Rule == ControlRule.BeyondThree)))
                {
                    total += length;
                    break;
                }
            }
        }

        // Run lengths are nearly geometric: their mean scatters by itself over the root of the runs. Three of that.
        Assert.Equal(points, total / (double)runs, 3 * points / Math.Sqrt(runs));
    }
}
