using PlateTickets.Planning.Nesting;

namespace PlateTickets.Planning.Tests.Nesting;

/// <summary>Millimetres stand for micrometres here.</summary>
public sealed class CutListTests
{
    [Fact]
    public void Of_TwoColumns_CutsThemApartFirst_ThenEachColumn()
    {
        var sheet = Sheet(P(1, 10, 15, 400, 500), P(2, 10, 525, 400, 500), P(3, 420, 15, 300, 700));
        Assert.Equal([new Cut(true, 415, 0, 1200), new Cut(false, 520, 0, 415)], CutList.Of(sheet));
    }

    [Fact]
    public void Of_OnePlate_NeedsNoCut() => Assert.Empty(CutList.Of(Sheet(P(1, 10, 15, 400, 500)))!);

    [Fact]
    public void Of_PlatesThatNoStraightCutParts_IsNull() =>
        Assert.Null(CutList.Of(Sheet(P(1, 0, 0, 200, 100), P(2, 210, 0, 100, 210), P(3, 110, 220, 200, 100), P(4, 0, 110, 100, 210), P(5, 110, 110, 90, 100))));

    [Fact]
    public void RemnantCut_TakesTheLargerPiece_AndLeavesTheRims()
    {
        var rules = new NestRules(10, 15, 10);
        Assert.Equal(new RemnantCut(true, 480, 1200, 420, 1200), RemnantCut.Of(Sheet(P(1, 10, 15, 400, 700)), rules, 300));
        Assert.Equal(new RemnantCut(false, 900, 670, 900, 530), RemnantCut.Of(Sheet(P(1, 10, 15, 700, 500)), rules, 100));
        Assert.Null(RemnantCut.Of(Sheet(P(1, 10, 15, 700, 1000)), rules, 300));
    }

    private static NestSheet Sheet(params PlacedPlate[] plates) => new(1, 900, 1200, plates);

    private static PlacedPlate P(int id, long x, long y, long width, long length) => new(id, x, y, width, length, false);
}
