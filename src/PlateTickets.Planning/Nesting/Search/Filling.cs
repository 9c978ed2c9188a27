namespace PlateTickets.Planning.Nesting.Search;

/// <summary>One sheet with its plates; never changed once it is made, so that it can be part of many layouts.</summary>
internal sealed record Filling(int Kind, Spot[] Spots, double Area, int Cuts)
{
    /// <summary>How far the plates reach along the drum axis, with one gap.</summary>
    public int Reach(Problem problem)
    {
        var reach = 0;
        foreach (var spot in Spots)
        {
            reach = Math.Max(reach, spot.X + (spot.Turned ? problem.Length : problem.Width)[spot.Item]);
        }

        return reach;
    }
}
