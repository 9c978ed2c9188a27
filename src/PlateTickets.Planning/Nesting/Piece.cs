namespace PlateTickets.Planning.Nesting;

/// <summary>A plate in the direction in which it is laid: micrometres along the drum axis and around the drum.</summary>
internal sealed record Piece(NestPlate Plate, bool Rotated)
{
    public long Width => Rotated ? Plate.Around : Plate.Across;

    public long Length => Rotated ? Plate.Across : Plate.Around;

    public double Area => (double)Width * Length;

    public bool Fits(NestStock stock, NestRules rules) =>
        Width <= stock.Width - (2 * rules.SideMargin) && Length <= stock.Length - (2 * rules.ClampMargin);
}
