namespace PlateTickets.Planning.Nesting.Search;

/// <summary>Which lot each set has begun on.</summary>
internal sealed class LotsOfSets(Problem problem)
{
    private readonly int?[] _lots = new int?[problem.Sets];

    public void Clear() => Array.Clear(_lots);

    public void Note(Filling sheet)
    {
        foreach (var spot in sheet.Spots)
        {
            Note(spot.Item, problem.Kinds[sheet.Kind].Lot);
        }
    }

    public void Note(int item, int lot) => _lots[problem.Set[item]] = lot;

    public bool Allows(int item, int lot) => _lots[problem.Set[item]] is not { } begun || begun == lot;
}
