using CsCheck;
using PlateTickets.Process.Units;

namespace PlateTickets.Process.Tests.Units;

/// <summary>1 in = 25.4 mm exactly (international yard and pound agreement, 1959; NIST SP 811, appendix B.8).</summary>
public sealed class LengthDisplayTests
{
    // Plate gauges of 0.045, 0.067 and 0.112 in are the trade's names for 1.14, 1.70 and 2.84 mm (common practice).
    [Theory]
    [InlineData(1.7, "1.70 mm", "0.067 in")]
    [InlineData(1.14, "1.14 mm", "0.045 in")]
    [InlineData(2.84, "2.84 mm", "0.112 in")]
    public void Thickness_IsAsTheTradeNamesIt(double mm, string metric, string inch)
    {
        Assert.Equal(metric, LengthSystem.Metric.Thickness(mm));
        Assert.Equal(inch, LengthSystem.Inch.Thickness(mm));
    }

    [Fact]
    public void Lengths_Sizes_AndSpeeds()
    {
        Assert.Equal("571.5 mm", LengthSystem.Metric.Show(571.5));
        Assert.Equal("22.5 in", LengthSystem.Inch.Show(571.5));
        Assert.Equal("900 × 1200 mm", LengthSystem.Metric.Size(900, 1200));
        Assert.Equal("35.43 × 47.24 in", LengthSystem.Inch.Size(900, 1200));
        Assert.Equal("254 mm/min", LengthSystem.Metric.Speed(254));
        Assert.Equal("10 in/min", LengthSystem.Inch.Speed(254));
        Assert.Equal("10 µm", LengthSystem.Metric.Small(0.01));
        Assert.Equal("1 mil", LengthSystem.Inch.Small(0.0254));
        Assert.Equal("+0.025 mm", LengthSystem.Metric.Deviation(0.0254));
        Assert.Equal("−1.0 mil", LengthSystem.Inch.Deviation(-0.0254));
    }

    /// <summary>What is shown can be typed again, and comes back within what its decimals can say.</summary>
    [Fact]
    public void Shown_CanBeTypedAgain() => Gen.Select(Gen.Double[0.1, 4000], Gen.Bool).Sample((mm, inch) =>
    {
        var system = inch ? LengthSystem.Inch : LengthSystem.Metric;
        Assert.Equal(mm, LengthText.Millimetres(system.Show(mm, 2), "It"), 0.0128);
        Assert.Equal(mm, LengthText.MillimetresPerMinute(system.Speed(mm), "It"), 0.051);
    });

    [Fact]
    public void NumberWithoutUnit_IsInTheReadersOwn()
    {
        Assert.Equal(1.7, LengthText.Millimetres("1.7", "It"));
        Assert.Equal(1.7018, LengthText.Millimetres("0.067", "It", LengthSystem.Inch), 1e-12);
        Assert.Equal(254, LengthText.MillimetresPerMinute("10", "It", LengthSystem.Inch), 1e-9);
    }

    [Fact]
    public void NoSpeed_IsRefused()
    {
        Refusals.Says("The transport speed: “fast” is no speed. Type it like 150, 150 mm/min or 5.9 in/min.", () => LengthText.MillimetresPerMinute("fast", "The transport speed"));
        Refusals.Says("The transport speed is missing: type it like 150", () => LengthText.MillimetresPerMinute(" ", "The transport speed"));
    }
}
