using PlateTickets.Planning.Nesting.Search;

namespace PlateTickets.Planning.Nesting;

/// <summary>
/// Lays plates on stock sizes and remnants so that they can be cut apart edge to edge: least area of sheets first, then each set
/// on the fewest sheets, then least travel of the imager along the drum axis, then the fewest cuts.
/// <para>All plates of a set lie in the same direction, because a set laid out both ways stretches differently and
/// misregisters (common practice). The direction that leaves the fewest plates too large is taken, of two equal ones the one
/// with the better layout. So when some plates of a set fit only along and others only across, the fewer are reported as too
/// large: give them another set, or a larger stock size.</para>
/// </summary>
public static class PlateNesting
{
    // Beyond so many sets that may lie either way, their directions are tried one after the other instead of all together.
    private const int MostSetsTogether = 3;

    /// <summary>Does a plate of this size fit inside the rims of one of the sheets, along or across? Micrometres.</summary>
    public static bool Fits(IReadOnlyList<NestStock> stocks, NestRules rules, long across, long around) =>
        SetDirections.Fits(stocks, rules, across, around) || SetDirections.Fits(stocks, rules, around, across);

    /// <param name="plates">In micrometres: above 0, at most 100 m.</param>
    /// <param name="stocks">What there is to choose from, in micrometres: above 0, at most 100 m.</param>
    /// <param name="rules">Free rims and gaps in micrometres, 0 or more.</param>
    /// <exception cref="ArgumentException">A size, rim or gap is out of its range.</exception>
    public static NestResult Nest(IReadOnlyList<NestPlate> plates, IReadOnlyList<NestStock> stocks, NestRules rules, NestEffort? effort = null)
    {
        NestCheck.Refuse(plates, stocks, rules);
        effort ??= NestEffort.For(plates.Count);
        var sets = new SetDirections(plates, stocks, rules);
        var choices = sets.Choices(MostSetsTogether);
        var each = effort with { Plates = Math.Max(1, effort.Plates / choices.Count), AtMost = effort.AtMost is { } time ? time with { Limit = time.Limit / choices.Count } : null };
        (Nested Nested, bool[] Across)? best = null;
        foreach (var across in choices)
        {
            Try(across);
        }

        if (sets.Turning.Count > MostSetsTogether)
        {
            foreach (var set in sets.Turning)
            {
                var other = (bool[])best!.Value.Across.Clone();
                other[set] = !other[set];
                Try(other);
            }
        }

        return best!.Value.Nested.Result;

        void Try(bool[] across)
        {
            var nested = Nested.Of(plates, stocks, rules, each, i => sets.Turned(i, across));
            if (best is null || nested.Value.CompareTo(best.Value.Nested.Value) < 0)
            {
                best = (nested, across);
            }
        }
    }
}
