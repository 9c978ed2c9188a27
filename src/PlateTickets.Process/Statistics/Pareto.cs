namespace PlateTickets.Process.Statistics;

/// <summary>One bar of a Pareto chart.</summary>
/// <param name="Item">What it counts.</param>
/// <param name="Weight">Its share of the trouble, in any unit; 0 or more.</param>
/// <param name="Cumulative">Share of this and all larger bars in the whole, 0 to 1.</param>
public sealed record ParetoBar<T>(T Item, double Weight, double Cumulative);

/// <summary>The few causes that make most of the trouble: sorted by weight, with the running share (Juran's Pareto principle).</summary>
public static class Pareto
{
    /// <param name="items">In any order; equal weights keep theirs.</param>
    /// <param name="weight">0 or more.</param>
    public static IReadOnlyList<ParetoBar<T>> Of<T>(IEnumerable<T> items, Func<T, double> weight)
    {
        var sorted = items.Select(i => (Item: i, Weight: weight(i))).OrderByDescending(i => i.Weight).ToList();
        var whole = sorted.Sum(i => i.Weight);
        var sum = 0.0;
        return [.. sorted.Select(i =>
        {
            sum += i.Weight;
            return new ParetoBar<T>(i.Item, i.Weight, whole > 0 ? Math.Min(1, sum / whole) : 0);
        })];
    }
}
