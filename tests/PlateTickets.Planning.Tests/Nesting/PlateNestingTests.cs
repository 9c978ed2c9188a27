using PlateTickets.Planning.Nesting;

namespace PlateTickets.Planning.Tests.Nesting;

/// <summary>Sizes in micrometres; the helpers take millimetres.</summary>
public sealed class PlateNestingTests
{
    private static readonly NestRules None = new(0, 0, 0);
    private static readonly NestRules Usual = new(5_000, 15_000, 10_000);

    [Fact]
    public void Nest_FourPlates_StandAroundTheDrumInTwoColumns()
    {
        var result = Nest(Usual, [Stock(1, 900, 1200)], Plate(1, 400, 500), Plate(2, 400, 500), Plate(3, 400, 500), Plate(4, 400, 500));
        var sheet = Assert.Single(result.Sheets);
        Assert.Equal(805_000, sheet.AxialExtent);
        Assert.Equal(
            [(10_000L, 15_000L), (10_000L, 520_000L), (415_000L, 15_000L), (415_000L, 520_000L)],
            sheet.Plates.Select(p => (p.X, p.Y)).Order());
    }

    [Fact]
    public void Nest_TwoPlatesThatCouldLieSideBySide_StandAroundTheDrumToSaveTravel()
    {
        var sheet = Assert.Single(Nest(Usual, [Stock(1, 900, 1200)], Plate(1, 400, 500), Plate(2, 300, 400)).Sheets);
        Assert.Equal(400_000, sheet.AxialExtent);
    }

    [Fact]
    public void Nest_PlateOfExactlyTheRoomInsideTheRims_Fits() =>
        Assert.Empty(Nest(Usual, [Stock(1, 900, 1200)], Plate(1, 880, 1170)).TooLarge);

    [Fact]
    public void Nest_PlateAMicrometreTooWide_IsTooLarge()
    {
        var result = PlateNesting.Nest([new NestPlate(1, 880_001, 1_170_000)], [Stock(1, 900, 1200)], Usual);
        Assert.Empty(result.Sheets);
        Assert.Equal(1, Assert.Single(result.TooLarge).Id);
    }

    [Fact]
    public void Nest_TwoHalvesWithAKnifeGap_NeedTwoSheets()
    {
        var halves = new[] { Plate(1, 450, 1200), Plate(2, 450, 1200) };
        Assert.Single(Nest(None, [Stock(1, 900, 1200)], halves).Sheets);
        Assert.Equal(2, Nest(None with { Gap = 1 }, [Stock(1, 900, 1200)], halves).Sheets.Count);
    }

    [Fact]
    public void Nest_PlateThatFitsOnlyAcross_TurnsTheWholeSet()
    {
        var result = Nest(None, [Stock(1, 900, 1200)], Plate(1, 1100, 500), Plate(2, 300, 400));
        Assert.Empty(result.TooLarge);
        Assert.All(result.Sheets.SelectMany(s => s.Plates), p => Assert.True(p.Rotated));
        Assert.Equal((500_000L, 1_100_000L), result.Sheets.SelectMany(s => s.Plates).Where(p => p.PlateId == 1).Select(p => (p.Width, p.Length)).Single());
    }

    [Fact]
    public void Nest_SomeFitOnlyAlongAndOneOnlyAcross_ReportsTheFewer()
    {
        var result = Nest(None, [Stock(1, 900, 1200)], Plate(1, 500, 1100), Plate(2, 500, 1100), Plate(3, 1100, 500));
        Assert.Equal([3], result.TooLarge.Select(p => p.Id));
        Assert.All(result.Sheets.SelectMany(s => s.Plates), p => Assert.False(p.Rotated));
    }

    [Fact]
    public void Nest_LastPlateAlone_GoesOnTheSmallerStockSize()
    {
        var plates = Enumerable.Range(1, 5).Select(i => Plate(i, 450, 600)).ToArray();
        var result = Nest(None, [Stock(1, 900, 1200), Stock(2, 500, 700)], plates);
        Assert.Equal([1, 2], result.Sheets.Select(s => s.StockId).Order());
    }

    [Fact]
    public void Nest_SmallSheetsCostLessInAll_TakesThem()
    {
        var result = Nest(None, [Stock(1, 1000, 1000), Stock(2, 600, 600)], Plate(1, 600, 600), Plate(2, 600, 600));
        Assert.Equal([2, 2], result.Sheets.Select(s => s.StockId));
    }

    [Fact]
    public void Nest_ASheetMoreMustSaveItsWorth_ElseOneSheetIsTaken()
    {
        NestStock[] stocks = [Stock(1, 1000, 1000), Stock(2, 600, 600)];
        NestPlate[] plates = [Plate(1, 480, 480), Plate(2, 480, 480)];
        // Two small sheets take 0.72 m2, one large one 1 m2.
        Assert.Equal([2, 2], Nest(None with { AreaPerSheet = 270_000_000_000 }, stocks, plates).Sheets.Select(s => s.StockId));
        Assert.Equal([1], Nest(None with { AreaPerSheet = 290_000_000_000 }, stocks, plates).Sheets.Select(s => s.StockId));
    }

    [Fact]
    public void Nest_TurningTheSetSavesASheet_TurnsIt()
    {
        // Along, only two plates 700 mm wide go on a sheet, one behind the other; across, two stand side by side and two behind them.
        var plates = Enumerable.Range(1, 4).Select(i => Plate(i, 700, 500)).ToArray();
        var sheet = Assert.Single(Nest(None, [Stock(1, 1000, 1400)], plates).Sheets);
        Assert.All(sheet.Plates, p => Assert.True(p.Rotated));
    }

    [Fact]
    public void Nest_CopiesApart_LieOnDifferentSheets()
    {
        var plates = new[] { Plate(1, 300, 300) with { Separation = 1 }, Plate(2, 300, 300) with { Separation = 1 }, Plate(3, 300, 300) with { Separation = 2 } };
        Assert.Single(Nest(None, [Stock(1, 900, 1200)], plates).Sheets);
        Assert.Equal(2, Nest(None with { Copies = CopyRule.Apart }, [Stock(1, 900, 1200)], plates).Sheets.Count);
    }

    [Fact]
    public void Nest_CopiesTogether_ShareASheet()
    {
        // Two sheets of three places; by the rule each separation's three copies fill one of them.
        var plates = Enumerable.Range(0, 6).Select(i => Plate(i, 300, 1200) with { Separation = i % 2 }).ToArray();
        var sheets = Nest(None with { Copies = CopyRule.Together }, [Stock(1, 900, 1200)], plates).Sheets;
        Assert.All(sheets, s => Assert.Single(s.Plates.Select(p => p.PlateId % 2).Distinct()));
    }

    [Fact]
    public void Nest_SetsOfOneSize_KeepASheetEach()
    {
        var plates = Enumerable.Range(0, 12).Select(i => Plate(i, 450, 600) with { Set = i % 3 }).ToArray();
        var sheets = Nest(None, [Stock(1, 900, 1200)], plates).Sheets;
        Assert.Equal(3, sheets.Count);
        Assert.All(sheets, s => Assert.Single(s.Plates.Select(p => p.PlateId % 3).Distinct()));
    }

    [Fact]
    public void Nest_SetsDueDaysApart_ShareNoSheet()
    {
        var plates = new[] { Plate(1, 300, 300), Plate(2, 300, 300) with { Set = 1, Due = 3 * 1440 } };
        Assert.Single(Nest(None, [Stock(1, 900, 1200)], plates).Sheets);
        Assert.Equal(2, Nest(None with { DueApart = 1440 }, [Stock(1, 900, 1200)], plates).Sheets.Count);
    }

    [Fact]
    public void Nest_RemnantThatIsLargeEnough_IsTakenInsteadOfAFullSheet()
    {
        var result = Nest(None, [Stock(1, 900, 1200), Stock(2, 420, 700) with { Copies = 1 }], Plate(1, 600, 1100), Plate(2, 400, 650));
        Assert.Equal([1, 2], result.Sheets.Select(s => s.StockId).Order());
    }

    [Fact]
    public void Nest_OneLotForASet_LeavesARemnantOfAnotherLotAlone()
    {
        var plates = new[] { Plate(1, 400, 650), Plate(2, 400, 650) };
        var sheets = Nest(None with { OneLotPerSet = true }, [Stock(1, 900, 1200) with { Lot = 1 }, Stock(2, 420, 700) with { Copies = 1, Lot = 2 }], plates).Sheets;
        Assert.Equal([1], sheets.Select(s => s.StockId));
    }

    [Fact]
    public void Nest_SetsOnLotsOfTheirOwn_AreFoundWhereEachFitsAsAWhole()
    {
        // Three plates of the first set go on a small sheet, across; all six of the second on another. One plate alone would suit the wrong sheet better.
        var plates = Enumerable.Range(0, 12).Select(i => (i < 6 ? Plate(i, 376, 268) : Plate(i, 192, 362)) with { Set = i / 6 }).ToArray();
        var sheets = Nest(
            Usual with { OneLotPerSet = true }, [Stock(0, 900, 1200) with { Copies = 30, Lot = 1 }, Stock(1, 640, 760) with { Copies = 30, Lot = 2 }], plates).Sheets;
        Assert.Equal([1, 1, 1], sheets.Select(s => s.StockId).Order());
    }

    [Fact]
    public void Nest_TooFewSheets_ReportsThePlatesLeftOver()
    {
        var result = Nest(None, [Stock(1, 900, 1200) with { Copies = 1 }], Plate(1, 900, 1200), Plate(2, 900, 1200));
        Assert.Single(result.Sheets);
        Assert.Single(result.NoSheetLeft);
        Assert.Empty(result.TooLarge);
    }

    [Fact]
    public void Nest_PlateThatMayTurnAlone_LeavesItsSetWhereItIs()
    {
        var result = Nest(None, [Stock(1, 900, 1200)], Plate(1, 500, 1100), Plate(2, 1100, 400) with { Turn = PlateTurn.Free });
        Assert.Single(result.Sheets);
        Assert.Equal([false, true], result.Sheets[0].Plates.OrderBy(p => p.PlateId).Select(p => p.Rotated));
    }

    [Fact]
    public void Nest_SameSeed_SameLayout()
    {
        var plates = Enumerable.Range(1, 40).Select(i => Plate(i, 90 + (i * 37 % 211), 120 + (i * 53 % 307))).ToArray();
        var (one, two) = (Nest(Usual, [Stock(1, 900, 1200), Stock(2, 600, 900)], plates), Nest(Usual, [Stock(1, 900, 1200), Stock(2, 600, 900)], plates));
        Assert.Equal(one.Sheets.SelectMany(s => s.Plates), two.Sheets.SelectMany(s => s.Plates));
    }

    [Fact]
    public void Nest_NoStockSize_LeavesEverythingTooLarge() => Assert.Equal(2, Nest(None, [], Plate(1, 100, 100), Plate(2, 100, 100)).TooLarge.Count);

    [Fact]
    public void Nest_NoPlates_TakesNoSheets() => Assert.Empty(Nest(None, [Stock(1, 900, 1200)]).Sheets);

    [Fact]
    public void Nest_SizeOutOfRange_IsRefusedWithTheSizeAndWhatToDo()
    {
        var refused = Assert.Throws<ArgumentException>(() => PlateNesting.Nest([new NestPlate(7, 0, 500)], [Stock(1, 900, 1200)], None));
        Assert.Equal("The size of plate 7 is 0 x 0.5 mm: each side must be above 0 and at most 100 m, so check the size and its unit.", refused.Message);
        Assert.Throws<ArgumentException>(() => Nest(None, [Stock(1, 900, 0)]));
        Assert.Throws<ArgumentException>(() => Nest(None, [Stock(1, 900, 200_000)]));
        Assert.Contains("clamp margin is -1 mm", Assert.Throws<ArgumentException>(() => Nest(None with { ClampMargin = -1_000 }, [])).Message, StringComparison.Ordinal);
    }

    private static NestPlate Plate(int id, long across, long around) => new(id, across * 1000, around * 1000);

    private static NestStock Stock(int id, long width, long length) => new(id, width * 1000, length * 1000);

    private static NestResult Nest(NestRules rules, NestStock[] stocks, params NestPlate[] plates)
    {
        var result = PlateNesting.Nest(plates, stocks, rules);
        Assert.Empty(NestingChecker.Violations(result, plates, stocks, rules));
        return result;
    }
}
