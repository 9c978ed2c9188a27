namespace PlateTickets.Process.Exposure;

/// <summary>One step: how long it was exposed and the floor that was measured, base included.</summary>
public sealed record StepTestPoint(double Seconds, double FloorMm);

/// <summary>A back exposure step test: steps of different time on one sheet at one irradiance.</summary>
/// <param name="IrradianceMwPerCm2">The frame's back lamps when the test was made.</param>
/// <param name="PlateThicknessMm">Total thickness of the material.</param>
/// <param name="BaseMm">Thickness of its polyester base; the polymer's floor lies on it.</param>
/// <param name="Points">In any order.</param>
public sealed record StepTest(double IrradianceMwPerCm2, double PlateThicknessMm, double BaseMm, IReadOnlyList<StepTestPoint> Points)
{
    /// <summary>How much a floor may fall from one step to the next before it is pointed out: the repeatability of a hand-held gauge, from memory.</summary>
    private const double GaugeMm = 0.02;

    /// <summary>Every reason why no curve can be fitted, in sentences; empty when one can.</summary>
    public IReadOnlyList<string> Refusals()
    {
        var sentences = new List<string>();
        if (!(IrradianceMwPerCm2 > 0) || !double.IsFinite(IrradianceMwPerCm2))
        {
            sentences.Add("The lamp reading of the test is missing: without irradiance there is no dose.");
        }

        foreach (var (point, step) in Points.Select((p, i) => (p, i + 1)))
        {
            if (!(point.Seconds > 0) || !double.IsFinite(point.Seconds))
            {
                sentences.Add($"Step {step} has no time above 0 s: correct it or leave it out.");
            }
            else if (!(point.FloorMm > BaseMm))
            {
                sentences.Add($"Step {step} ({Numbers.ForPeople(point.Seconds)} s): a floor of {Mm(point.FloorMm)} mm is not above the base of {Mm(BaseMm)} mm. Nothing has cured there: leave the step out, or measure with the base.");
            }
            else if (point.FloorMm >= PlateThicknessMm)
            {
                sentences.Add($"Step {step} ({Numbers.ForPeople(point.Seconds)} s): a floor of {Mm(point.FloorMm)} mm is not below the plate thickness of {Mm(PlateThicknessMm)} mm. The step is cured through: leave it out, or check the gauge.");
            }
        }

        if (sentences.Count > 0)
        {
            return sentences;
        }

        var times = Points.Select(p => p.Seconds).Distinct().Count();
        if (times < 3)
        {
            return [$"The test has {(times == 1 ? "only one time" : $"{times} different times")}: a curve with its uncertainty needs at least three."];
        }

        return Fit().Slope > 0
            ? []
            : ["The floors fall with longer exposure, which no photopolymer does: check that times and floors are not swapped or in reverse order."];
    }

    /// <summary>What is odd but does not forbid a curve.</summary>
    public IReadOnlyList<string> Doubts() =>
        [.. Points.OrderBy(p => p.Seconds).Zip(Points.OrderBy(p => p.Seconds).Skip(1))
            .Where(p => p.Second.FloorMm < p.First.FloorMm - GaugeMm)
            .Select(p => $"The floor falls from {Mm(p.First.FloorMm)} mm at {Numbers.ForPeople(p.First.Seconds)} s to {Mm(p.Second.FloorMm)} mm at {Numbers.ForPeople(p.Second.Seconds)} s: measure these two steps again.")];

    /// <summary>The working curve by least squares of the cured depth on the logarithm of the dose.</summary>
    /// <exception cref="PlateRoomException">With the sentences of <see cref="Refusals"/>.</exception>
    public FloorCurve Curve()
    {
        var refusals = Refusals();
        return refusals.Count == 0 ? new FloorCurve(this, Fit()) : throw new PlateRoomException(string.Join(" ", refusals));
    }

    private static string Mm(double mm) => mm.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture);

    private Statistics.LineFit Fit() => new(
        [.. Points.Select(p => Math.Log(Reciprocity.DoseMjPerCm2(IrradianceMwPerCm2, p.Seconds)))],
        [.. Points.Select(p => p.FloorMm - BaseMm)]);
}
