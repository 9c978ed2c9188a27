using System.Globalization;

namespace PlateTickets.Process.Distortion;

/// <summary>What a file's length around the cylinder looks like.</summary>
public enum LengthVerdict
{
    /// <summary>The flat length of a full repeat.</summary>
    Right = 1,

    /// <summary>The flat length of a whole fraction of the repeat.</summary>
    Fraction = 2,

    /// <summary>The repeat itself: nobody distorted the file.</summary>
    NotDistorted = 3,

    /// <summary>Distorted for another plate thickness.</summary>
    OtherThickness = 4,

    /// <summary>Shortened twice.</summary>
    Twice = 5,

    /// <summary>Shorter than the repeat and none of these: perhaps a plate that does not go all the way round.</summary>
    Shorter = 6,

    /// <summary>Longer than the repeat: it cannot go on this cylinder.</summary>
    TooLong = 7,
}

/// <summary>A verdict with the deviation in mm from the length that it stands for, and the sentence for the CSR.</summary>
public sealed record LengthFinding(LengthVerdict Verdict, double DeviationMm, int NumberAround, string Sentence);

/// <summary>Checks a file's length around against the flat length that its repeat and plate ask for.</summary>
public static class LengthCheck
{
    private const int MostAround = 12;

    /// <summary>The nearest of the known cases within the tolerance.</summary>
    /// <param name="measuredMm">Length of the file around the cylinder.</param>
    /// <param name="repeatMm">Printed length of one turn.</param>
    /// <param name="thicknessMm">Plate thickness.</param>
    /// <param name="baseMm">Thickness of the polyester base.</param>
    /// <param name="otherPlates">Thickness and base of the other plates in the room.</param>
    /// <param name="toleranceMm">How far off still counts; 0.5 mm unless set.</param>
    public static LengthFinding Of(
        double measuredMm, double repeatMm, double thicknessMm, double baseMm, IEnumerable<(double ThicknessMm, double BaseMm)>? otherPlates = null, double toleranceMm = 0.5)
    {
        Guard.Above(measuredMm, 0, "The file's length around", "mm");
        Guard.Above(toleranceMm, 0, "The tolerance", "mm");
        var flat = PlateDistortion.FlatLengthMm(repeatMm, thicknessMm, baseMm);
        var factor = flat / repeatMm;
        var cases = new List<LengthFinding>();
        for (var around = 1; around <= MostAround; around++)
        {
            cases.Add(Case(around == 1 ? LengthVerdict.Right : LengthVerdict.Fraction, flat / around, around));
        }

        cases.Add(Case(LengthVerdict.NotDistorted, repeatMm, 1));
        cases.Add(Case(LengthVerdict.Twice, repeatMm * factor * factor, 1));
        foreach (var (thickness, baseThickness) in otherPlates ?? [])
        {
            var other = 2 * Math.PI * (thickness - baseThickness);
            if (other < repeatMm)
            {
                var finding = Case(LengthVerdict.OtherThickness, repeatMm - other, 1);
                cases.Add(finding with { Sentence = Text($"Looks distorted for a plate of {thickness:0.00} mm: {measuredMm:0.0} mm, but this plate needs {flat:0.0} mm.") });
            }
        }

        var nearest = cases.Where(c => Math.Abs(c.DeviationMm) <= toleranceMm).MinBy(c => Math.Abs(c.DeviationMm));
        return nearest ?? Case(measuredMm > repeatMm ? LengthVerdict.TooLong : LengthVerdict.Shorter, flat, 1);

        LengthFinding Case(LengthVerdict verdict, double expected, int around) =>
            new(verdict, measuredMm - expected, around, Sentence(verdict, measuredMm, flat, repeatMm, around));
    }

    private static string Sentence(LengthVerdict verdict, double measured, double flat, double repeat, int around) => verdict switch
    {
        LengthVerdict.Right => Text($"Right: {measured:0.0} mm around is the flat length of a {repeat:0.0} mm repeat."),
        LengthVerdict.Fraction => Text($"Right for {around} around: {measured:0.0} mm is 1/{around} of the flat length."),
        LengthVerdict.NotDistorted => Text($"Looks not distorted: {measured:0.0} mm is the repeat itself; the flat length is {flat:0.0} mm."),
        LengthVerdict.Twice => Text($"Looks distorted twice: {measured:0.0} mm; the flat length is {flat:0.0} mm."),
        LengthVerdict.TooLong => Text($"Too long: {measured:0.0} mm around does not go on a repeat of {repeat:0.0} mm (flat length {flat:0.0} mm)."),
        _ => Text($"{measured:0.0} mm around is {flat - measured:0.0} mm less than a full turn ({flat:0.0} mm): right if the plate does not go all the way round."),
    };

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
