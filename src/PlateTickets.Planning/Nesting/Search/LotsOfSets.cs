namespace PlateTickets.Planning.Nesting.Search;

/// <summary>Which lot each set has begun on.</summary>
internal sealed class LotsOfSets(Problem problem)
{
    private readonly int?[] _lots = new int?[problem.Sets];

    public void Clear() => Array.Clear(_lots);

    public void Take(LotsOfSets other) => other._lots.CopyTo(_lots, 0);

    public void Note(Filling sheet)
    {
        foreach (var spot in sheet.Spots)
        {
            Note(spot.Item, problem.Kinds[sheet.Kind].Lot);
        }
    }

    public void Note(int item, int lot) => _lots[problem.Set[item]] = lot;

    /// <summary>Binds sets that have not begun to one of the lots by chance: a set that begins where one plate fits best may not fit there as a whole.</summary>
    public void Draw(IReadOnlyList<int> lots, ref SplitMix random)
    {
        for (var set = 0; set < _lots.Length && lots.Count > 0; set++)
        {
            _lots[set] ??= lots[random.Below(lots.Count)];
        }
    }

    public bool Allows(int item, int lot) => _lots[problem.Set[item]] is not { } begun || begun == lot;
}
