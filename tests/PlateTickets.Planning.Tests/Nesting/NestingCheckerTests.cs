using PlateTickets.Planning.Nesting;

namespace PlateTickets.Planning.Tests.Nesting;

public sealed class NestingCheckerTests
{
    private static readonly NestPlate[] Plates = [new(1, 100, 200), new(2, 100, 200)];
    private static readonly NestStock[] Stocks = [new(1, 1000, 1000) { Copies = 1, Lot = 7 }, new(2, 1000, 1000) { Lot = 8 }];

    [Fact]
    public void Violations_OfAGoodNesting_AreNone() => Assert.Empty(Check(None, Sheet(1, Along(1, 0), Along(2, 100))));

    [Fact]
    public void Violations_SetInBothDirections_IsFound() =>
        Assert.Contains("Set 0 lies partly along and partly across the sheet: it would misregister.", Check(None, Sheet(1, Along(1, 0), Across(2, 100))));

    [Fact]
    public void Violations_MissingOrDoublePlate_IsFound()
    {
        const string Sentence = "Not every plate is laid, or reported as left over, exactly once.";
        Assert.Contains(Sentence, Check(None, Sheet(1, Along(1, 0))));
        Assert.Contains(Sentence, Check(None, Sheet(1, Along(1, 0), Along(2, 100)), Sheet(2, Along(2, 0))));
    }

    [Fact]
    public void Violations_MoreSheetsThanThereAre_AreFound() =>
        Assert.Contains("2 sheets of stock size 1 are used; there are 1.", Check(None, Sheet(1, Along(1, 0)), Sheet(1, Along(2, 0))));

    [Fact]
    public void Violations_SetOnTwoLots_IsFound() =>
        Assert.Contains("Set 0 lies on sheets of 2 lots.", Check(None with { OneLotPerSet = true }, Sheet(1, Along(1, 0)), Sheet(2, Along(2, 0))));

    [Fact]
    public void Violations_PlateInAnotherSize_IsFound() =>
        Assert.Contains("Plate 2 is laid in another size than its own.", Check(None, Sheet(1, Along(1, 0), Along(2, 100) with { Width = 99 })));

    [Fact]
    public void CompanyViolations_CopiesAndDueTimes_AreFound()
    {
        NestPlate[] plates = [Plates[0] with { Separation = 3 }, Plates[1] with { Separation = 3, Due = 120 }];
        Assert.Equal(
            ["Its plates are due 2 h apart; 1 h are allowed on one sheet.", "Plates 1, 2 are copies of one separation: they must lie on different sheets."],
            NestingChecker.CompanyViolations(plates, None with { DueApart = 60, Copies = CopyRule.Apart }));
    }

    private static NestRules None { get; } = new(0, 0, 0);

    private static IReadOnlyList<string> Check(NestRules rules, params NestSheet[] sheets) =>
        NestingChecker.Violations(new NestResult(sheets, []), Plates, Stocks, rules);

    private static NestSheet Sheet(int stock, params PlacedPlate[] plates) => new(stock, 1000, 1000, plates);

    private static PlacedPlate Along(int id, long x) => new(id, x, 0, 100, 200, false);

    private static PlacedPlate Across(int id, long x) => new(id, x, 0, 200, 100, true);
}
