namespace PlateTickets.Planning.Nesting.Search;

/// <summary>First answer, then fewer and smaller sheets, then the same sheets in better order.</summary>
internal sealed class LayoutSearch(Problem problem, NestEffort effort)
{
    // Of the effort for fewer sheets: tidying converges long before.
    private const int TidyingShare = 4;

    public Layout Run()
    {
        var layout = FewestSheets();
        new Tidying(problem, effort.Seed).Run(layout, effort.Clock(() => false, TidyingShare));
        return layout;
    }

    private Layout FewestSheets()
    {
        var first = new FirstLayout(problem).Make();
        if (first.Loose.Count > 0)
        {
            return first;
        }

        var least = LeastCost();
        var found = new Layout[effort.Searches];
        var enough = false;
        Parallel.For(0, found.Length, n =>
        {
            found[n] = new Repacking(problem, effort.Seed + (ulong)n).Run(first, least, effort.Clock(() => Volatile.Read(ref enough)));
            Volatile.Write(ref enough, enough || found[n].Cost <= least);
        });
        return found.MinBy(f => f.Cost)!.Copy();
    }

    private double LeastCost() => problem.Kinds.Length == 1
        ? LeastArea.Sheets(problem) * problem.Kinds[0].Cost
        : Math.Max(Enumerable.Range(0, problem.Count).Max(LeastCostOf), Enumerable.Range(0, problem.Count).Sum(problem.Area) * LeastCover());

    // A plate needs at least the cheapest sheet that it fits on: for a set on one sheet there is often nothing to look for.
    private double LeastCostOf(int item)
    {
        var (width, length) = (problem.Width[item], problem.Length[item]);
        return problem.Kinds
            .Where(k => (width <= k.Width && length <= k.Length) || (problem.Turns[item] && length <= k.Width && width <= k.Length))
            .Min(k => k.Cost);
    }

    // Plates count with their gaps, sheets with the room that the plates may use: a sheet never holds more than its room.
    private double LeastCover() => problem.Kinds.Where(k => k.Width > 0 && k.Length > 0).Min(k => k.Cost / ((double)k.Width * k.Length));
}
