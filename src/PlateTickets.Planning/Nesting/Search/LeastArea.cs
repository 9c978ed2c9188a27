namespace PlateTickets.Planning.Nesting.Search;

/// <summary>
/// Fewest sheets of one kind that any layout needs: sizes are changed by functions that keep every packing possible, and the
/// changed areas added up. S. P. Fekete, J. Schepers, A general framework for bounds for higher-dimensional orthogonal packing
/// problems, Mathematical Methods of Operations Research 60, 2004, 311-329.
/// </summary>
internal static class LeastArea
{
    private const int MostSteps = 14;

    public static int Sheets(Problem problem)
    {
        var kind = problem.Kinds[0];
        var widths = Steps(problem.Width, kind.Width, problem.Turns.Any(t => t) ? problem.Length : []);
        var lengths = Steps(problem.Length, kind.Length, problem.Turns.Any(t => t) ? problem.Width : []);
        var most = 0.0;
        foreach (var e in widths)
        {
            foreach (var d in lengths)
            {
                var sum = 0.0;
                for (var i = 0; i < problem.Count; i++)
                {
                    var area = Changed(problem.Width[i], kind.Width, e) * Changed(problem.Length[i], kind.Length, d);
                    if (problem.Turns[i])
                    {
                        area = Math.Min(area, Changed(problem.Length[i], kind.Width, e) * Changed(problem.Width[i], kind.Length, d));
                    }

                    sum += area;
                }

                most = Math.Max(most, sum);
            }
        }

        return (int)Math.Ceiling(most - 1e-6);
    }

    // More than (whole - step): counts as the whole; less than the step: as nothing; else as its share.
    private static double Changed(int size, int whole, int step) =>
        size > whole - step ? 1 : size < step ? 0 : (double)size / whole;

    private static List<int> Steps(int[] sizes, int whole, int[] others)
    {
        var all = sizes.Concat(others).Select(s => 2 * s > whole ? whole - s + 1 : s).Where(s => s > 0 && 2 * s <= whole + 1).Distinct().Order().ToList();
        var every = Math.Max(1, (all.Count + MostSteps - 1) / MostSteps);
        return [0, .. all.Where((_, i) => i % every == 0)];
    }
}
