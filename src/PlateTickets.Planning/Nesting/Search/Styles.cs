namespace PlateTickets.Planning.Nesting.Search;

/// <summary>Draws ways of laying out, every second time one of those that helped lately.</summary>
internal sealed class Styles
{
    private const int EnoughToChoose = 8;

    private readonly Style[] _helped = new Style[64];
    private int _count;

    public Style Next(ref SplitMix random) => _count > EnoughToChoose && random.Below(2) == 0
        ? _helped[random.Below(Math.Min(_count, _helped.Length))]
        : Style.Drawn(ref random);

    public void Helped(Style style)
    {
        _helped[_count % _helped.Length] = style;
        _count = _count == int.MaxValue ? _helped.Length : _count + 1;
    }
}
