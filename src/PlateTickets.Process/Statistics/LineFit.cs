using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace PlateTickets.Process.Statistics;

/// <summary>
/// A least-squares line y = intercept + slope x with its confidence band and its inverse (NIST/SEMATECH e-Handbook of Statistical
/// Methods, sections 4.4.3 and 4.5.1; the inverse after Fieller). The fit itself is MathNet.Numerics'.
/// </summary>
public sealed class LineFit
{
    private readonly double _xMean;
    private readonly double _yMean;
    private readonly double _sxx;

    /// <param name="x">At least three values, two of them different.</param>
    /// <param name="y">As many values.</param>
    /// <exception cref="ArgumentException">Fewer than three points, or all at one x.</exception>
    public LineFit(double[] x, double[] y)
    {
        if (x.Length != y.Length || x.Length < 3)
        {
            throw new ArgumentException("A line with its uncertainty needs at least three points.");
        }

        _xMean = x.Average();
        _yMean = y.Average();
        _sxx = x.Sum(v => (v - _xMean) * (v - _xMean));
        if (_sxx == 0)
        {
            throw new ArgumentException("All points lie at one x: no line goes through them.");
        }

        (Intercept, Slope) = Fit.Line(x, y);
        var residuals = x.Zip(y, (a, b) => b - Intercept - (Slope * a)).ToList();
        var squares = residuals.Sum(r => r * r);
        var total = y.Sum(v => (v - _yMean) * (v - _yMean));
        Count = x.Length;
        (XMin, XMax) = (x.Min(), x.Max());
        ResidualStandardDeviation = Math.Sqrt(squares / (Count - 2));
        RSquared = total == 0 ? 1 : 1 - (squares / total);
    }

    public double Intercept { get; }

    public double Slope { get; }

    /// <summary>Share of the variation that the line explains, 0 to 1.</summary>
    public double RSquared { get; }

    /// <summary>Standard deviation of the points around the line, with n - 2 degrees of freedom; in the unit of y.</summary>
    public double ResidualStandardDeviation { get; }

    public int Count { get; }

    public double XMin { get; }

    public double XMax { get; }

    public double At(double x) => Intercept + (Slope * x);

    /// <summary>Half the width of the confidence band of the line itself at an x.</summary>
    /// <param name="x">Where.</param>
    /// <param name="confidence">Above 0, below 1, such as 0.95.</param>
    public double HalfBand(double x, double confidence) =>
        Quantile(confidence) * ResidualStandardDeviation * Math.Sqrt((1.0 / Count) + ((x - _xMean) * (x - _xMean) / _sxx));

    /// <summary>The x at which the line reaches a y, and between which x the band does; null ends when the slope is too uncertain to say.</summary>
    public (double X, double? Low, double? High) XFor(double y, double confidence)
    {
        var d = (y - _yMean) / Slope;
        var q = Quantile(confidence) * ResidualStandardDeviation / Math.Abs(Slope);
        var g = q * q / _sxx;
        if (g >= 1)
        {
            return (_xMean + d, null, null);
        }

        var half = q * Math.Sqrt(((1 - g) / Count) + (d * d / _sxx));
        return (_xMean + d, _xMean + ((d - half) / (1 - g)), _xMean + ((d + half) / (1 - g)));
    }

    private double Quantile(double confidence) => StudentT.InvCDF(0, 1, Count - 2, 0.5 + (confidence / 2));
}
