using PlateTickets.Process.Units;

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
    /// <param name="units">In which units the sentence is written.</param>
    public static LengthFinding Of(
        double measuredMm, double repeatMm, double thicknessMm, double baseMm, IEnumerable<(double ThicknessMm, double BaseMm)>? otherPlates = null, double toleranceMm = 0.5,
        LengthSystem units = LengthSystem.Metric)
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
                cases.Add(finding with { Sentence = $"Looks distorted for a plate of {units.Thickness(thickness)}: {units.Show(measuredMm)}, but this plate needs {units.Show(flat)}." });
            }
        }

        var nearest = cases.Where(c => Math.Abs(c.DeviationMm) <= toleranceMm).MinBy(c => Math.Abs(c.DeviationMm));
        return nearest ?? Case(measuredMm > repeatMm ? LengthVerdict.TooLong : LengthVerdict.Shorter, flat, 1);

        LengthFinding Case(LengthVerdict verdict, double expected, int around) =>
            new(verdict, measuredMm - expected, around, Sentence(verdict, measuredMm, flat, repeatMm, around, units));
    }

    private static string Sentence(LengthVerdict verdict, double measured, double flat, double repeat, int around, LengthSystem units) => verdict switch
    {
        LengthVerdict.Right => $"Right: {units.Show(measured)} around is the flat length of a {units.Show(repeat)} repeat.",
        LengthVerdict.Fraction => $"Right for {around} around: {units.Show(measured)} is 1/{around} of the flat length.",
        LengthVerdict.NotDistorted => $"Looks not distorted: {units.Show(measured)} is the repeat itself; the flat length is {units.Show(flat)}.",
        LengthVerdict.Twice => $"Looks distorted twice: {units.Show(measured)}; the flat length is {units.Show(flat)}.",
        LengthVerdict.TooLong => $"Too long: {units.Show(measured)} around does not go on a repeat of {units.Show(repeat)} (flat length {units.Show(flat)}).",
        _ => $"{units.Show(measured)} around is {units.Show(flat - measured)} less than a full turn ({units.Show(flat)}): right if the plate does not go all the way round.",
    };
}
