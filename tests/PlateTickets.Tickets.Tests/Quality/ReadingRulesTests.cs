using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Quality;

public class ReadingRulesTests
{
    private static readonly Material Plate067 = new() { Name = "Test 067", ThicknessUm = 1702, BaseUm = 125, Process = WashoutProcess.Solvent };

    private static readonly RecipeSettings Recipe = new(
        new(new(0, 0), 100, 15, FloorMm: 1.194), new(new(0, 0), 2540, 80), new(new(0, 0), 10_000),
        new(new(0, 0), WashoutProcess.Solvent, 150, null, null, 30), new(new(0, 0), 1, 2, 60, 0), new(new(0, 0), 1, 1, true));

    /// <summary>FTA, "Plate to Print" (flexography.org): plates of .067 in have a relief of .018 to .022 in; below .018 the floor prints.</summary>
    [Theory]
    [InlineData(0.017, false)]
    [InlineData(0.0185, true)]
    [InlineData(0.0215, true)]
    [InlineData(0.023, false)]
    public void Relief_OfA067Plate_IsHeldAgainstTheTradesRange(double inches, bool right) =>
        Assert.Equal(right, ReadingRules.Number(ReadingKind.Relief, inches * 25.4, Recipe, Plate067, LengthSystem.Inch).InLimits);

    [Fact]
    public void Sentence_SaysWhatWasRead_AndWhatIsRight()
    {
        var finding = ReadingRules.Number(ReadingKind.Thickness, 1.73, Recipe, Plate067, LengthSystem.Metric);
        Assert.Equal((false, "Total thickness 1.73 mm is out of its limits (1.689 to 1.715 mm)."), (finding.InLimits, finding.Sentence));
        Assert.Equal((1730, 1689, 1715), (finding.Value, finding.From, finding.To));
        Assert.Equal("Lamps 8.5 mW/cm² is out of its limits (9 mW/cm² or more).", ReadingRules.Number(ReadingKind.Lamps, 8.5, Recipe, Plate067, LengthSystem.Metric).Sentence);
    }

    [Fact]
    public void ImpossibleLength_IsRefused() => Assert.Contains(
        "Check the figure and its unit",
        Assert.Throws<PlateRoomException>(() => ReadingRules.Number(ReadingKind.Floor, 1190, Recipe, Plate067, LengthSystem.Metric)).Message,
        StringComparison.Ordinal);

    [Fact]
    public void EveryCaution_HasItsSignsByNumberAndInWords()
    {
        foreach (var station in Process.Stations.InOrder)
        {
            foreach (var process in Enum.GetValues<WashoutProcess>())
            {
                Assert.NotEmpty(Cautions.For(station, process));
                // ISO 7010: W warning, M mandatory, P prohibition, and three digits.
                Assert.All(Cautions.For(station, process).SelectMany(c => c.Signs), s => Assert.Matches("^(W[0-9]{3}\\|Warning|M[0-9]{3}\\|Mandatory|P[0-9]{3}\\|Prohibition)", $"{s.Code}|{s.Meaning}"));
            }
        }
    }
}
