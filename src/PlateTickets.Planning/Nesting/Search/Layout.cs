namespace PlateTickets.Planning.Nesting.Search;

/// <summary>Sheets with their plates, and the plates that lie on none yet.</summary>
internal sealed class Layout
{
    public List<Filling> Sheets { get; } = [];

    public List<int> Loose { get; } = [];

    public double LooseArea { get; set; }

    public double Cost { get; set; }

    public Layout Copy()
    {
        var copy = new Layout { LooseArea = LooseArea, Cost = Cost };
        copy.Sheets.AddRange(Sheets);
        copy.Loose.AddRange(Loose);
        return copy;
    }
}
