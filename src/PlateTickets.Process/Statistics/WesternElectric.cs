namespace PlateTickets.Process.Statistics;

/// <summary>Why a point is a signal. The numbers are those of the Western Electric rules.</summary>
public enum ControlRule
{
    /// <summary>A point beyond three standard deviations.</summary>
    BeyondThree = 1,

    /// <summary>Two of three points in a row beyond two, on one side.</summary>
    TwoOfThreeBeyondTwo = 2,

    /// <summary>Four of five points in a row beyond one, on one side.</summary>
    FourOfFiveBeyondOne = 3,

    /// <summary>Eight points in a row on one side of the centre.</summary>
    EightOnOneSide = 4,

    /// <summary>A range outside of its limits. Only this rule is asked of ranges: they are skewed, and moving ranges depend on each other.</summary>
    SpreadOutside = 5,
}

/// <summary>A rule that a point broke.</summary>
/// <param name="Rule">Which.</param>
/// <param name="From">Index of the first point of the pattern.</param>
/// <param name="At">Index of the point that completes it.</param>
public sealed record ControlSignal(ControlRule Rule, int From, int At);

/// <summary>
/// The four rules of the Western Electric Company's Statistical Quality Control Handbook (1956), as section 6.3.2 of the
/// NIST/SEMATECH e-Handbook of Statistical Methods names them. "Beyond" is strict: a point on a line does not count, and one on the centre
/// belongs to no side.
/// </summary>
public static class WesternElectric
{
    /// <summary>Every rule that a point completes, in the order of the points. A pattern that goes on is told once, at its first complete point.</summary>
    /// <param name="distances">From the centre in standard deviations of the plotted value, in the order of time.</param>
    public static IReadOnlyList<ControlSignal> Signals(IReadOnlyList<double> distances)
    {
        var signals = new List<ControlSignal>();
        for (var i = 0; i < distances.Count; i++)
        {
            if (Math.Abs(distances[i]) > 3)
            {
                signals.Add(new(ControlRule.BeyondThree, i, i));
            }

            AddNew(signals, ControlRule.TwoOfThreeBeyondTwo, distances, i, of: 3, least: 2, beyond: 2);
            AddNew(signals, ControlRule.FourOfFiveBeyondOne, distances, i, of: 5, least: 4, beyond: 1);
            AddNew(signals, ControlRule.EightOnOneSide, distances, i, of: 8, least: 8, beyond: 0);
        }

        return signals;
    }

    private static void AddNew(List<ControlSignal> signals, ControlRule rule, IReadOnlyList<double> distances, int at, int of, int least, double beyond)
    {
        foreach (var side in new[] { 1, -1 })
        {
            if (Breaks(distances, at, of, least, beyond, side) && !Breaks(distances, at - 1, of, least, beyond, side))
            {
                signals.Add(new(rule, Math.Max(0, at - of + 1), at));
            }
        }
    }

    // The point itself must lie beyond: a point back at the centre does not complete a pattern.
    private static bool Breaks(IReadOnlyList<double> distances, int at, int of, int least, double beyond, int side)
    {
        if (at < 0 || !(side * distances[at] > beyond))
        {
            return false;
        }

        var count = 0;
        for (var i = Math.Max(0, at - of + 1); i <= at; i++)
        {
            count += side * distances[i] > beyond ? 1 : 0;
        }

        return count >= least;
    }
}
