using CsCheck;
using PlateTickets.Planning.Nesting;

namespace PlateTickets.Planning.Tests.Nesting;

public sealed class RandomPlatesTests
{
    private static readonly Gen<NestPlate[]> Plates = Gen.Select(Gen.Long[1, 700], Gen.Long[1, 900]).Array[0, 14]
        .Select(sizes => sizes.Select((s, i) => new NestPlate(i, s.Item1, s.Item2)).ToArray());

    private static readonly Gen<NestPlate[]> SetsOfPlates =
        Gen.Select(Gen.Long[1, 700], Gen.Long[1, 900], Gen.Int[0, 3], Gen.Int[-1, 4], Gen.Long[0, 2_000], Gen.Enum<PlateTurn>()).Array[0, 20]
            .Select(drawn => drawn.Select((d, i) => new NestPlate(i, d.Item1, d.Item2) { Set = d.Item3, Separation = d.Item4, Due = d.Item5, Turn = d.Item6 }).ToArray());

    private static readonly Gen<NestRules> CompanyRules = Gen.Select(Gen.Long[0, 20], Gen.Long[0, 60], Gen.Enum<CopyRule>(), Gen.Long[0, 3_000], Gen.Bool)
        .Select((gap, rim, copies, due, lot) => new NestRules(gap, rim, rim) { Copies = copies, DueApart = due, OneLotPerSet = lot });

    private static readonly Gen<NestStock[]> CountedStocks = Gen.Select(Gen.Long[200, 1000], Gen.Long[200, 1400], Gen.Int[0, 9], Gen.Int[1, 3]).Array[0, 4]
        .Select(drawn => drawn.Select((d, i) => new NestStock(i, d.Item1, d.Item2) { Copies = d.Item3 > 6 ? null : d.Item3, Lot = d.Item4 }).ToArray());

    private static readonly Gen<NestStock[]> Stocks = Gen.Select(Gen.Long[200, 1000], Gen.Long[200, 1400]).Array[0, 3]
        .Select(sizes => sizes.Select((s, i) => new NestStock(i, s.Item1, s.Item2)).ToArray());

    private static readonly Gen<NestRules> Rules = Gen.Select(Gen.Long[0, 20], Gen.Long[0, 60], Gen.Long[0, 60])
        .Select((gap, clamp, side) => new NestRules(gap, clamp, side));

    [Fact]
    public void Every_plate_lies_once_and_every_sheet_can_be_cut() =>
        Gen.Select(Plates, Stocks, Rules).Sample((plates, stocks, rules) =>
        {
            var result = PlateNesting.Nest(plates, stocks, rules);
            Assert.Empty(NestingChecker.Violations(result, plates, stocks, rules));
            var placed = result.Sheets.SelectMany(s => s.Plates).ToList();
            Assert.Equal(plates.Select(p => p.Id), placed.Select(p => p.PlateId).Concat(result.TooLarge.Select(p => p.Id)).Order());
            Assert.True(placed.DistinctBy(p => p.Rotated).Count() <= 1, "A set lies in one direction.");
            Assert.All(placed, p => Assert.Equal(
                p.Rotated ? (plates[p.PlateId].Around, plates[p.PlateId].Across) : (plates[p.PlateId].Across, plates[p.PlateId].Around), (p.Width, p.Length)));
        }, iter: 300);

    [Fact]
    public void Sets_copies_due_times_lots_and_counted_sheets_are_respected() =>
        Gen.Select(SetsOfPlates, CountedStocks, CompanyRules).Sample((plates, stocks, rules) =>
            Assert.Empty(NestingChecker.Violations(PlateNesting.Nest(plates, stocks, rules, new NestEffort(5_000)), plates, stocks, rules)), iter: 400);

    [Fact]
    public void Copies_that_come_again_and_again_lie_once_each() =>
        Gen.Select(Gen.Select(Gen.Long[100, 500], Gen.Long[100, 500], Gen.Int[4, 15]).Array[2, 4], Gen.Enum<CopyRule>()).Sample((sizes, copies) =>
        {
            var plates = sizes
                .SelectMany((s, size) => Enumerable.Range(0, s.Item3).Select(copy => new NestPlate((100 * size) + copy, s.Item1, s.Item2) { Separation = (100 * size) + (copy / 4), Due = 1000 * (copy / 4), Turn = PlateTurn.Free }))
                .ToList();
            NestStock[] stocks = [new(0, 1000, 1000)];
            var rules = new NestRules(0, 0, 0) { Copies = copies, DueApart = 2000 };
            // Enough that sheets of the past are looked at.
            Assert.Empty(NestingChecker.Violations(PlateNesting.Nest(plates, stocks, rules, new NestEffort(110_000)), plates, stocks, rules));
        }, iter: 60);

    [Fact]
    public void No_more_plates_are_too_large_than_in_the_better_of_the_two_directions() =>
        Gen.Select(Plates, Stocks, Rules).Sample((plates, stocks, rules) =>
        {
            bool Fits(long width, long length) =>
                stocks.Any(s => width + (2 * rules.SideMargin) <= s.Width && length + (2 * rules.ClampMargin) <= s.Length);
            var least = Math.Min(plates.Count(p => !Fits(p.Across, p.Around)), plates.Count(p => !Fits(p.Around, p.Across)));
            Assert.Equal(least, PlateNesting.Nest(plates, stocks, rules).TooLarge.Count);
        }, iter: 300);

    [Fact]
    public void More_stock_sizes_to_choose_from_never_take_more_material_for_a_few_plates() =>
        Gen.Select(Plates, Stocks, Rules).Sample((plates, stocks, rules) =>
        {
            // Up to four plates every way through the choices is tried, so the promise holds; beyond that it is a good try.
            var few = plates.Take(4).Where(p => stocks.Any(s => new[] { p.Across, p.Around }.Max() + 120 <= Math.Min(s.Width, s.Length))).ToList();
            var all = Area(PlateNesting.Nest(few, stocks, rules));
            foreach (var stock in stocks)
            {
                var one = PlateNesting.Nest(few, [stock], rules);
                Assert.True(one.TooLarge.Count > 0 || all <= Area(one), $"Stock size {stock.Id} alone takes less.");
            }
        }, iter: 300);

    private static double Area(NestResult result) => result.Sheets.Sum(s => (double)s.Width * s.Length);
}
