namespace PlateTickets.Planning.Nesting.Search;

/// <summary>Which sets may lie along, across or either way.</summary>
internal sealed class SetDirections
{
    private readonly IReadOnlyList<NestPlate> _plates;
    private readonly Dictionary<int, int> _index = [];
    private readonly bool[] _first;

    public SetDirections(IReadOnlyList<NestPlate> plates, IReadOnlyList<NestStock> stocks, NestRules rules)
    {
        _plates = plates;
        foreach (var plate in plates)
        {
            _index.TryAdd(plate.Set, _index.Count);
        }

        _first = new bool[_index.Count];
        foreach (var set in plates.Where(p => p.Turn == PlateTurn.WithSet).GroupBy(p => p.Set))
        {
            var along = set.Count(p => !Fits(stocks, rules, p.Across, p.Around));
            var across = set.Count(p => !Fits(stocks, rules, p.Around, p.Across));
            _first[_index[set.Key]] = across < along;
            if (across == along && set.Any(p => p.Across != p.Around))
            {
                Turning.Add(_index[set.Key]);
            }
        }
    }

    /// <summary>The sets that may lie either way.</summary>
    public List<int> Turning { get; } = [];

    public static bool Fits(IReadOnlyList<NestStock> stocks, NestRules rules, long width, long length) =>
        stocks.Any(s => width + (2 * rules.SideMargin) <= s.Width && length + (2 * rules.ClampMargin) <= s.Length);

    /// <summary>All ways of laying the sets when few may turn, else one.</summary>
    public List<bool[]> Choices(int most)
    {
        List<bool[]> choices = [_first];
        foreach (var set in Turning.Count <= most ? Turning : [])
        {
            choices.AddRange(choices.ConvertAll(c =>
            {
                var turned = (bool[])c.Clone();
                turned[set] = true;
                return turned;
            }));
        }

        return choices;
    }

    /// <summary>Does a plate lie across? Null when it may turn by itself.</summary>
    public bool? Turned(int plate, bool[] across) => _plates[plate].Turn switch
    {
        PlateTurn.Free => null,
        PlateTurn.Along => false,
        PlateTurn.Across => true,
        _ => across[_index[_plates[plate].Set]],
    };
}
