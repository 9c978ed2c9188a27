using PlateTickets.Process.Statistics;

namespace PlateTickets.Process.Tests.Statistics;

public class CapabilityTests
{
    /// <summary>NIST/SEMATECH e-Handbook of Statistical Methods, section 6.1.6: limits 8 and 20, mean 16, deviation 2 give Cp 1.0 and Cpk 0.6667.</summary>
    [Fact]
    public void TheHandbooksExample()
    {
        var capability = Capability.Of(8, 20, 16, 2, 2)!;
        Assert.Equal(1.0, capability.Cp);
        Assert.Equal(0.6667, capability.Cpk, 5e-5);
        Assert.Equal((capability.Cp, capability.Cpk), (capability.Pp, capability.Ppk));
        // Its one-sided figures: Cpu 0.6667, Cpl 1.3333.
        Assert.Equal(0.6667, Capability.Of(null, 20, 16, 2, 2)!.Cpk, 5e-5);
        Assert.Equal(1.3333, Capability.Of(8, null, 16, 2, 2)!.Cpk, 5e-5);
        Assert.Null(Capability.Of(8, null, 16, 2, 2)!.Cp);
    }

    [Fact]
    public void NothingToSay_WithoutLimitsOrScatter_AndLimitsTheWrongWayRoundAreRefused()
    {
        Assert.Null(Capability.Of(null, null, 16, 2, 2));
        Assert.Null(Capability.Of(8, 20, 16, 0, 2));
        Assert.True(Capability.Of(8, 20, 21, 2, 2)!.Cpk < 0);
        Assert.Throws<PlateRoomException>(() => Capability.Of(20, 8, 16, 2, 2));
    }

    [Fact]
    public void Pareto_SortsAndAddsUp()
    {
        var bars = Pareto.Of([("a", 1.0), ("b", 6), ("c", 3)], i => i.Item2);
        Assert.Equal(["b", "c", "a"], bars.Select(b => b.Item.Item1));
        Assert.Equal([0.6, 0.9, 1], bars.Select(b => Math.Round(b.Cumulative, 12)));
        Assert.All(Pareto.Of([("a", 0.0)], i => i.Item2), b => Assert.Equal(0, b.Cumulative));
    }
}
