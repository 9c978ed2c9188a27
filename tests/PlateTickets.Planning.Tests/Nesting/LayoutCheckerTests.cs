using PlateTickets.Planning.Nesting;

namespace PlateTickets.Planning.Tests.Nesting;

public sealed class LayoutCheckerTests
{
    private static readonly NestRules Rules = new(10, 50, 20);

    [Fact]
    public void Violations_GoodSheet_AreNone() => Assert.Empty(Check(P(1, 20, 50, 480, 400), P(2, 510, 50, 470, 900), P(3, 20, 460, 480, 490)));

    [Fact]
    public void Violations_NoPlates_AreNone() => Assert.Empty(Check());

    [Theory]
    [InlineData(19, 50, 100, 100, "side margin")]
    [InlineData(881, 50, 100, 100, "side margin")]
    [InlineData(20, 49, 100, 100, "clamp margin")]
    [InlineData(20, 851, 100, 100, "clamp margin")]
    public void Violations_PlateInTheMargin_IsFound(long x, long y, long width, long length, string where) =>
        Assert.Contains(where, Assert.Single(Check(P(1, x, y, width, length))), StringComparison.Ordinal);

    [Fact]
    public void Violations_PlatesTooClose_AreFound() =>
        Assert.Contains("Plates 1 and 2 are 0.009 mm apart; the knife needs 0.01 mm.", Check(P(1, 20, 50, 100, 100), P(2, 129, 50, 100, 100)));

    [Fact]
    public void Violations_PlatesThatOverlap_AreFound() =>
        Assert.Contains("Plates 1 and 2 overlap.", Check(P(1, 20, 50, 100, 100), P(2, 119, 149, 100, 100)));

    // Four plates around a fifth, each ending at the next one's side: no straight cut goes through from edge to edge.
    [Fact]
    public void Violations_Pinwheel_CannotBeCutApart() =>
        Assert.Equal(
            ["The plates cannot be cut apart with cuts from edge to edge."],
            Check(P(1, 20, 50, 200, 100), P(2, 230, 50, 100, 210), P(3, 130, 270, 200, 100), P(4, 20, 160, 100, 210), P(5, 130, 160, 90, 100)));

    private static IReadOnlyList<string> Check(params PlacedPlate[] plates) => LayoutChecker.Violations(new NestSheet(1, 1000, 1000, plates), Rules);

    private static PlacedPlate P(int id, long x, long y, long width, long length) => new(id, x, y, width, length, false);
}
