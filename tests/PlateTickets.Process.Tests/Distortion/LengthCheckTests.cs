using PlateTickets.Process.Distortion;
using PlateTickets.Process.Units;

namespace PlateTickets.Process.Tests.Distortion;

public class LengthCheckTests
{
    private static readonly (double, double)[] Others = [(1.14, 0.175), (2.84, 0.175)];

    // Repeat 400 mm, plate 1.70 mm, base 0.125 mm: flat length 390.104 mm (computed).
    [Theory]
    [InlineData(390.104, LengthVerdict.Right, "Right: 390.1 mm")]
    [InlineData(390.5, LengthVerdict.Right, "Right:")]
    [InlineData(195.052, LengthVerdict.Fraction, "Right for 2 around")]
    [InlineData(130.035, LengthVerdict.Fraction, "Right for 3 around")]
    [InlineData(400, LengthVerdict.NotDistorted, "Looks not distorted: 400 mm is the repeat itself; the flat length is 390.1 mm.")]
    [InlineData(380.453, LengthVerdict.Twice, "Looks distorted twice")]
    [InlineData(393.937, LengthVerdict.OtherThickness, "Looks distorted for a plate of 1.14 mm")]
    [InlineData(383.255, LengthVerdict.OtherThickness, "Looks distorted for a plate of 2.84 mm")]
    [InlineData(420, LengthVerdict.TooLong, "Too long")]
    [InlineData(350, LengthVerdict.Shorter, "350 mm around is 40.1 mm less than a full turn")]
    public void Length_GetsItsVerdictAndSentence(double measured, LengthVerdict verdict, string words)
    {
        var finding = LengthCheck.Of(measured, 400, 1.70, 0.125, Others);
        Assert.Equal(verdict, finding.Verdict);
        Assert.Contains(words, finding.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Sentence_IsInInches_ForWhoReadsInches() => Assert.Equal(
        "Looks not distorted: 15.748 in is the repeat itself; the flat length is 15.358 in.",
        LengthCheck.Of(400, 400, 1.70, 0.125, units: LengthSystem.Inch).Sentence);

    [Fact]
    public void Deviation_IsAgainstTheCaseThatWasFound()
    {
        Assert.Equal(0.3, LengthCheck.Of(390.404, 400, 1.70, 0.125).DeviationMm, 0.001);
        Assert.Equal(-0.2, LengthCheck.Of(399.8, 400, 1.70, 0.125).DeviationMm, 0.001);
    }

    [Fact]
    public void ImpossibleLength_IsRefused() => Refusals.Says("The file's length around is 0 mm", () => LengthCheck.Of(0, 400, 1.70, 0.125));
}
