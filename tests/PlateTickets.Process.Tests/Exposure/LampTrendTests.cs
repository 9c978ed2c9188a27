using PlateTickets.Process.Exposure;
using PlateTickets.Process.Recipes;

namespace PlateTickets.Process.Tests.Exposure;

public class LampTrendTests
{
    private static readonly DateTime Start = new(2026, 1, 1, 8, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void StraightFall_ReachesTheLimitWhereItMust()
    {
        // 20 mW/cm2 falling by 0.1 a day reaches 70 % (14 mW/cm2) after 60 days.
        var trend = LampTrend.Of(Enumerable.Range(0, 5).Select(w => new LampReading(20 - (0.7 * w), Start.AddDays(7 * w))))!;
        Assert.Equal(14, trend.LimitMwPerCm2, 1e-9);
        Assert.Equal(-0.1, trend.PerDay, 1e-9);
        var reached = trend.LimitReached()!.Value;
        Assert.Equal(0, (reached.Expected - Start.AddDays(60)).TotalHours, 1e-3);
        Assert.Equal(13.0, trend.At(Start.AddDays(70)).IrradianceMwPerCm2, 1e-9);
    }

    [Fact]
    public void NoisyReadings_GiveABandAroundTheDay()
    {
        double[] noise = [0.1, -0.15, 0.05, 0.12, -0.1, -0.02];
        var trend = LampTrend.Of(noise.Select((n, w) => new LampReading(20 - (0.7 * w) + n, Start.AddDays(7 * w))))!;
        var (expected, earliest, latest) = trend.LimitReached()!.Value;
        Assert.True(earliest < expected && expected < latest);
    }

    [Fact]
    public void LampsThatDoNotFall_HaveNoLimitDay_AndTwoReadingsNoTrend()
    {
        Assert.Null(LampTrend.Of([new(15, Start), new(15.1, Start.AddDays(7)), new(15.2, Start.AddDays(14))])!.LimitReached());
        Assert.Null(LampTrend.Of([new(15, Start), new(14, Start.AddDays(7))]));
        Assert.Null(LampTrend.Of([]));
    }
}
