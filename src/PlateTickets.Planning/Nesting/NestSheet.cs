namespace PlateTickets.Planning.Nesting;

/// <summary>One raw sheet with its plates.</summary>
public sealed record NestSheet(int StockId, long Width, long Length, IReadOnlyList<PlacedPlate> Plates)
{
    /// <summary>How far the plates reach along the drum axis, from the first to the last: what the imager has to travel.</summary>
    public long AxialExtent => Plates.Count == 0 ? 0 : Plates.Max(p => p.X + p.Width) - Plates.Min(p => p.X);

    /// <summary>Share of the sheet that plates cover, 0 to 1.</summary>
    public double Covered => Plates.Sum(p => (double)p.Width * p.Length) / ((double)Width * Length);
}
