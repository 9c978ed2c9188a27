using MathNet.Numerics.Statistics;

namespace PlateTickets.Process.Statistics;

/// <summary>Mean and spread of a row of values in the order of time, and how much a value depends on the one before.</summary>
/// <param name="Count">How many values; 1 or more.</param>
/// <param name="Mean">In the unit of the values.</param>
/// <param name="Deviation">Sample standard deviation with n - 1 in the unit of the values; 0 for a single value.</param>
/// <param name="Autocorrelation">Correlation of each value with the one before, -1 to 1 (lag 1); null where all values are equal or there is only one.</param>
public sealed record Summary(int Count, double Mean, double Deviation, double? Autocorrelation)
{
    /// <summary>The mean is MathNet.Numerics'; the deviation is taken about it, so that large values with small differences keep theirs.</summary>
    /// <param name="values">In the order of time.</param>
    /// <exception cref="ArgumentException">No value at all.</exception>
    public static Summary Of(IReadOnlyList<double> values)
    {
        if (values.Count == 0)
        {
            throw new ArgumentException("There is no mean of no values.", nameof(values));
        }

        var mean = values.Mean();
        var about = values.Select(v => v - mean).ToList();
        // The mean itself is rounded; what that leaves is taken off again.
        var rest = about.Sum() / about.Count;
        var squares = about.Sum(a => (a - rest) * (a - rest));
        var products = about.Zip(about.Skip(1), (a, b) => (a - rest) * (b - rest)).Sum();
        return new(
            values.Count, mean, values.Count == 1 ? 0 : Math.Sqrt(squares / (values.Count - 1)), values.Count == 1 || squares == 0 ? null : products / squares);
    }
}

/// <summary>Quantiles of few values.</summary>
public static class Percentile
{
    /// <summary>
    /// The value below which a share of the population is expected: interpolated at rank share x (n + 1), which never leaves the values
    /// (NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.6.2). MathNet.Numerics computes it.
    /// </summary>
    /// <param name="values">In any order.</param>
    /// <param name="share">Above 0, below 1: 0.5 is the median.</param>
    /// <returns>Null for no values.</returns>
    public static double? Of(IReadOnlyCollection<double> values, double share)
    {
        if (!(share > 0 && share < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(share), share, "A share lies between 0 and 1.");
        }

        return values.Count == 0 ? null : values.QuantileCustom(share, QuantileDefinition.R6);
    }
}
