using PlateTickets.Process.Recipes;
using PlateTickets.Process.Statistics;

namespace PlateTickets.Process.Exposure;

/// <summary>
/// The ageing of a frame's lamps: a line through the readings, and when it falls below the usable share of the first reading. Lamps are
/// counted as used up at 30 % below their first output (rated life of UV sunlamps after IST magazine, an analogue); they fall fastest when new, so the line is
/// pessimistic for fresh lamps.
/// </summary>
public sealed class LampTrend
{
    /// <summary>Usable down to this share of the first reading.</summary>
    public const double UsableShare = 0.7;

    private const double Confidence = 0.95;

    private readonly LineFit _line;
    private readonly DateTime _first;

    private LampTrend(LineFit line, DateTime first, double limit)
    {
        _line = line;
        _first = first;
        LimitMwPerCm2 = limit;
    }

    /// <summary>The irradiance below which the lamps are used up, in mW/cm².</summary>
    public double LimitMwPerCm2 { get; }

    /// <summary>Change in mW/cm² a day; negative when the lamps fall.</summary>
    public double PerDay => _line.Slope;

    /// <summary>Share of the variation that the line explains.</summary>
    public double RSquared => _line.RSquared;

    /// <summary>The trend of the readings of one set of lamps; null with fewer than three readings at different times.</summary>
    public static LampTrend? Of(IEnumerable<LampReading> readings)
    {
        var sorted = readings.OrderBy(r => r.ReadAtUtc).ToList();
        if (sorted.Select(r => r.ReadAtUtc).Distinct().Count() < 3)
        {
            return null;
        }

        var first = sorted[0];
        var line = new LineFit(
            [.. sorted.Select(r => (r.ReadAtUtc - first.ReadAtUtc).TotalDays)], [.. sorted.Select(r => r.IrradianceMwPerCm2)]);
        return new LampTrend(line, first.ReadAtUtc, first.IrradianceMwPerCm2 * UsableShare);
    }

    /// <summary>The line's irradiance at an instant with half its band, in mW/cm².</summary>
    public (double IrradianceMwPerCm2, double HalfBand) At(DateTime utc)
    {
        var days = (utc - _first).TotalDays;
        return (_line.At(days), _line.HalfBand(days, Confidence));
    }

    /// <summary>When the line reaches the limit, between which instants the band does; null when the lamps do not fall, or too little to say.</summary>
    public (DateTime Expected, DateTime? Earliest, DateTime? Latest)? LimitReached()
    {
        if (_line.Slope >= 0)
        {
            return null;
        }

        var (x, low, high) = _line.XFor(LimitMwPerCm2, Confidence);
        return After(x) is { } expected ? (expected, After(low), After(high)) : null;
    }

    // Beyond a few years the readings say nothing.
    private DateTime? After(double? days) => days is > -3650 and < 3650 ? _first.AddDays(days.Value) : null;
}
