namespace PlateTickets.Planning.Scheduling.Engine;

/// <summary>The sets of a shop: jobs of each, sets of each job, due times and weights, and the caller's id (null for a sheet that is its own set).</summary>
internal sealed record ShopTickets(int?[] Ids, int[] Due, double[] Weight, int[][] JobsOf, int[][] TicketsOf)
{
    public int Count => Due.Length;

    public static ShopTickets Of(PlanRequest request, PlanSheet[] sheets, Func<DateTime, int> seconds)
    {
        var jobOf = new Dictionary<int, int>();
        for (var j = 0; j < sheets.Length; j++)
        {
            jobOf.Add(sheets[j].Id, j);
        }

        var sets = request.Tickets
            .Select(t => (Id: (int?)t.Id, t.DueUtc, t.Weight, Jobs: t.SheetIds.Where(jobOf.ContainsKey).Select(id => jobOf[id]).ToArray()))
            .Where(t => t.Jobs.Length > 0).ToList();
        var covered = sets.SelectMany(t => t.Jobs).ToHashSet();
        sets.AddRange(sheets.Select((s, j) => (Id: (int?)null, s.DueUtc, s.Weight, Jobs: new[] { j })).Where(s => !covered.Contains(s.Jobs[0])));
        var ticketsOf = sheets.Select(_ => new List<int>()).ToArray();
        for (var t = 0; t < sets.Count; t++)
        {
            foreach (var job in sets[t].Jobs)
            {
                ticketsOf[job].Add(t);
            }
        }

        return new ShopTickets(
            [.. sets.Select(t => t.Id)], [.. sets.Select(t => seconds(t.DueUtc))], [.. sets.Select(t => t.Weight)], [.. sets.Select(t => t.Jobs)], [.. ticketsOf.Select(t => t.ToArray())]);
    }
}
