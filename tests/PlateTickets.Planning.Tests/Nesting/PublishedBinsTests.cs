using PlateTickets.Planning.Nesting;

namespace PlateTickets.Planning.Tests.Nesting;

/// <summary>
/// Fewest bins of published instances whose optimum is proved. Class 1, 20 items, instance 1 of J. O. Berkey, P. Y. Wang, Two-dimensional
/// finite bin-packing algorithms, J. Oper. Res. Soc. 38, 1987, 423-429; best values collected by the rectangle data of an open-source
/// packing library (MIT licence): 8 bins without, 7 with rotation.
/// </summary>
public sealed class PublishedBinsTests
{
    // Height and width.
    private static readonly (int H, int W)[] Class1 =
    [
        (9, 5), (2, 4), (6, 10), (7, 5), (3, 6), (7, 10), (5, 1), (5, 3), (9, 6), (4, 2),
        (7, 6), (2, 7), (3, 8), (10, 4), (5, 4), (3, 10), (3, 8), (8, 7), (3, 8), (7, 8),
    ];

    [Theory]
    [InlineData(false, 8)]
    [InlineData(true, 7)]
    public void Class_1_instance_1_takes_the_fewest_bins(bool rotation, int bins)
    {
        var plates = Class1.Select((s, i) => new NestPlate(i, s.W, s.H) { Turn = rotation ? PlateTurn.Free : PlateTurn.Along }).ToList();
        NestStock[] stocks = [new(0, 10, 10)];
        var rules = new NestRules(0, 0, 0);
        var result = PlateNesting.Nest(plates, stocks, rules);
        Assert.Empty(NestingChecker.Violations(result, plates, stocks, rules));
        Assert.Equal(bins, result.Sheets.Count);
    }
}
