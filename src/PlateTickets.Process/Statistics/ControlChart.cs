namespace PlateTickets.Process.Statistics;

/// <summary>One plotted point with the limits that count for it, all in one unit.</summary>
/// <param name="Value">What is plotted.</param>
/// <param name="Lower">Lower control limit, three standard deviations below the centre.</param>
/// <param name="Upper">Upper control limit, three above.</param>
public sealed record ControlPoint(double Value, double Lower, double Upper)
{
    /// <summary>On a limit is still inside.</summary>
    public bool IsOutside => Value < Lower || Value > Upper;
}

/// <summary>A row of points about a centre.</summary>
/// <param name="Points">In the order of time.</param>
/// <param name="Centre">The centre line.</param>
public sealed record ControlTrack(IReadOnlyList<ControlPoint> Points, double Centre);

/// <summary>
/// A pair of Shewhart charts: where the process lies, and how it scatters. The limits come from the scatter within samples (or from one value
/// to the next), so a process that wanders does not hide its own wandering.
/// </summary>
/// <param name="Place">Single values or averages.</param>
/// <param name="Spread">Moving ranges or ranges. Moving ranges begin with the second value: point i lies between values i and i + 1.</param>
/// <param name="Sigma">Standard deviation within samples, estimated from the ranges; in the unit of the values.</param>
/// <param name="Signals">What the rules say about <paramref name="Place"/>, and points of <paramref name="Spread"/> outside of their limits.</param>
public sealed record ControlChart(ControlTrack Place, ControlTrack Spread, double Sigma, IReadOnlyList<ControlSignal> Signals)
{
    /// <summary>
    /// Individuals and moving range: sigma = mean moving range of two / 1.128 (NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2).
    /// </summary>
    /// <param name="values">In the order of time; two or more, none of them infinite or not a number.</param>
    /// <exception cref="ArgumentException">Fewer than two values.</exception>
    public static ControlChart OfIndividuals(IReadOnlyList<double> values)
    {
        if (values.Count < 2)
        {
            throw new ArgumentException("A chart of single values needs at least two.", nameof(values));
        }

        var factors = ControlFactors.For(2);
        var centre = values.Average();
        var moving = values.Zip(values.Skip(1), (a, b) => Math.Abs(b - a)).ToList();
        var mean = moving.Average();
        var sigma = mean / factors.D2;
        var place = new ControlTrack([.. values.Select(v => new ControlPoint(v, centre - (3 * sigma), centre + (3 * sigma)))], centre);
        var spread = new ControlTrack([.. moving.Select(m => new ControlPoint(m, 0, mean * factors.UpperRange))], mean);
        return Of(place, spread, sigma, [.. values.Select(_ => sigma)]);
    }

    /// <summary>
    /// Averages and ranges of samples (NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.1). Samples of several sizes are allowed:
    /// sigma is then the mean of range / d2, and each point has the limits of its size. For equal sizes that is mean range / d2.
    /// </summary>
    /// <param name="samples">In the order of time; two or more samples of 2 to 25 values each.</param>
    /// <exception cref="ArgumentException">Fewer than two samples, or one of another size.</exception>
    public static ControlChart OfSamples(IReadOnlyList<IReadOnlyList<double>> samples)
    {
        if (samples.Count < 2 || samples.Any(s => s.Count is < ControlFactors.Fewest or > ControlFactors.Most))
        {
            throw new ArgumentException("A chart of averages needs at least two samples of 2 to 25 values.", nameof(samples));
        }

        var measured = samples.Select(s => (Mean: s.Average(), Range: s.Max() - s.Min(), Factors: ControlFactors.For(s.Count))).ToList();
        var sigma = measured.Average(s => s.Range / s.Factors.D2);
        var centre = samples.SelectMany(s => s).Average();
        var deviations = measured.Select(s => sigma / Math.Sqrt(s.Factors.Size)).ToList();
        var place = new ControlTrack([.. measured.Select((s, i) => new ControlPoint(s.Mean, centre - (3 * deviations[i]), centre + (3 * deviations[i])))], centre);
        var spread = new ControlTrack(
            [.. measured.Select(s => new ControlPoint(s.Range, sigma * s.Factors.D2 * s.Factors.LowerRange, sigma * s.Factors.D2 * s.Factors.UpperRange))],
            measured.Average(s => s.Range));
        return Of(place, spread, sigma, deviations);
    }

    private static ControlChart Of(ControlTrack place, ControlTrack spread, double sigma, IReadOnlyList<double> deviations)
    {
        var distances = place.Points.Select((p, i) => deviations[i] == 0 ? 0 : (p.Value - place.Centre) / deviations[i]).ToList();
        var outside = spread.Points.Select((p, i) => (p, i)).Where(s => s.p.IsOutside).Select(s => new ControlSignal(ControlRule.SpreadOutside, s.i, s.i));
        return new(place, spread, sigma, [.. WesternElectric.Signals(distances), .. outside]);
    }
}
