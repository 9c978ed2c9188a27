namespace PlateTickets.Process.Statistics;

/// <summary>
/// What relates the range of a small sample to the standard deviation of a normal population: its expected value d2 and its standard
/// deviation d3, in standard deviations. All other factors of a chart of averages and ranges follow from them
/// (NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.1; the table of d2 and d3 is that of ASTM E2587, from memory, and is
/// checked against the integrals that define it).
/// </summary>
public sealed class ControlFactors
{
    /// <summary>The smallest sample that has a range.</summary>
    public const int Fewest = 2;

    /// <summary>The largest sample of the table.</summary>
    public const int Most = 25;

    private static readonly double[] ExpectedRange =
    [
        1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.970, 3.078, 3.173, 3.258, 3.336,
        3.407, 3.472, 3.532, 3.588, 3.640, 3.689, 3.735, 3.778, 3.819, 3.858, 3.895, 3.931,
    ];

    private static readonly double[] RangeDeviation =
    [
        0.853, 0.888, 0.880, 0.864, 0.848, 0.833, 0.820, 0.808, 0.797, 0.787, 0.778, 0.770,
        0.763, 0.756, 0.750, 0.744, 0.739, 0.733, 0.729, 0.724, 0.720, 0.716, 0.712, 0.708,
    ];

    private ControlFactors(int size) => (Size, D2, D3OfRange) = (size, ExpectedRange[size - Fewest], RangeDeviation[size - Fewest]);

    /// <summary>Values in a sample.</summary>
    public int Size { get; }

    /// <summary>d2: the expected range in standard deviations.</summary>
    public double D2 { get; }

    /// <summary>d3: the standard deviation of the range in standard deviations. Not the limit factor D3.</summary>
    public double D3OfRange { get; }

    /// <summary>A2: the limits of averages are that many mean ranges away from their centre.</summary>
    public double Averages => 3 / (D2 * Math.Sqrt(Size));

    /// <summary>D3: the lower limit of ranges in mean ranges; 0 for samples of up to six.</summary>
    public double LowerRange => Math.Max(0, 1 - (3 * D3OfRange / D2));

    /// <summary>D4: the upper limit of ranges in mean ranges.</summary>
    public double UpperRange => 1 + (3 * D3OfRange / D2);

    /// <param name="size">Values in a sample, 2 to 25.</param>
    /// <exception cref="ArgumentOutOfRangeException">Outside of the table.</exception>
    public static ControlFactors For(int size) => size is >= Fewest and <= Most
        ? new(size)
        : throw new ArgumentOutOfRangeException(nameof(size), size, "A sample for a range has 2 to 25 values.");
}
