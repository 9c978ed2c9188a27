namespace PlateTickets.Web.Timeline;

/// <summary>Puts what overlaps on one machine into lanes beneath each other.</summary>
internal static class Lanes
{
    /// <summary>
    /// The lane of each span, in the order given, counted from 0. Taken by start, each goes to the uppermost free lane: no two
    /// overlap in a lane, and there are no more lanes than overlap at some instant. What only touches does not overlap.
    /// </summary>
    /// <param name="spans">Ordered by start.</param>
    public static int[] Assign(IReadOnlyList<(DateTime StartUtc, DateTime FinishUtc)> spans)
    {
        var lanes = new int[spans.Count];
        var free = new List<DateTime>();
        for (var i = 0; i < spans.Count; i++)
        {
            var lane = free.FindIndex(f => f <= spans[i].StartUtc);
            if (lane < 0)
            {
                lane = free.Count;
                free.Add(default);
            }

            free[lane] = spans[i].FinishUtc;
            lanes[i] = lane;
        }

        return lanes;
    }
}
