namespace PlateTickets.Planning.Scheduling;

/// <summary>So many people more (or fewer) from one instant to another (UTC).</summary>
public sealed record HeadcountChange(DateTime FromUtc, DateTime ToUtc, int People);

/// <summary>From people on duty to one calendar for each operator.</summary>
public static class Headcount
{
    /// <summary>
    /// The n-th operator is there whenever at least n people are. Where one shift follows another, the one who comes takes over
    /// from the one who goes, so that work may pass the change of shifts. There is always at least one calendar, even if it is empty.
    /// </summary>
    /// <param name="changes">People that come and go; they may overlap, and their sum counts. Below nobody there is nobody.</param>
    public static IReadOnlyList<WorkingTime> Operators(IEnumerable<HeadcountChange> changes)
    {
        var steps = new SortedDictionary<DateTime, int>();
        foreach (var change in changes.Where(c => c.FromUtc < c.ToUtc))
        {
            steps[change.FromUtc] = steps.GetValueOrDefault(change.FromUtc) + change.People;
            steps[change.ToUtc] = steps.GetValueOrDefault(change.ToUtc) - change.People;
        }

        var layers = new List<List<WorkingInterval>>();
        var (count, since) = (0, DateTime.MinValue);
        foreach (var (at, step) in steps)
        {
            for (var n = 0; n < count; n++)
            {
                if (layers.Count == n)
                {
                    layers.Add([]);
                }

                layers[n].Add(new WorkingInterval(since, at));
            }

            (count, since) = (count + step, at);
        }

        return layers.Count == 0 ? [new WorkingTime([])] : [.. layers.Select(l => new WorkingTime(l))];
    }
}
