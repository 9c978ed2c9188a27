namespace PlateTickets.Planning.Nesting;

/// <summary>How the shelves of a sheet lie.</summary>
internal enum ShelfDirection
{
    /// <summary>Plates stand one behind the other around the drum: the shelves follow each other along the axis.</summary>
    AroundDrum,

    /// <summary>Plates stand side by side along the axis: the shelves follow each other around the drum.</summary>
    AlongAxis,
}

/// <summary>A sheet filled with as many pieces as go onto it, and the pieces that are left.</summary>
internal sealed record ShelfFill(NestSheet Sheet, IReadOnlyList<Piece> Left)
{
    public double Area => (double)Sheet.Width * Sheet.Length;

    /// <summary>Share of the sheet that is covered, 0 to 1.</summary>
    public double Covered => Sheet.Plates.Sum(p => (double)p.Width * p.Length) / Area;

    /// <summary>First fit decreasing: the piece that needs the deepest shelf goes first, each onto the first shelf with room. Null when not one piece fits.</summary>
    public static ShelfFill? Of(NestStock stock, NestRules rules, IReadOnlyList<Piece> pieces, ShelfDirection direction)
    {
        var around = direction == ShelfDirection.AroundDrum;
        var room = around ? stock.Length - (2 * rules.ClampMargin) : stock.Width - (2 * rules.SideMargin);
        var depth = around ? stock.Width - (2 * rules.SideMargin) : stock.Length - (2 * rules.ClampMargin);
        var shelves = new List<Shelf>();
        var placed = new List<PlacedPlate>();
        var left = new List<Piece>();
        foreach (var piece in pieces.OrderByDescending(p => around ? p.Width : p.Length).ThenByDescending(p => around ? p.Length : p.Width))
        {
            var (along, deep) = around ? (piece.Length, piece.Width) : (piece.Width, piece.Length);
            if (Place(shelves, along, deep, room, depth, rules.Gap) is not { } spot)
            {
                left.Add(piece);
                continue;
            }

            var (x, y) = around ? (spot.Depth, spot.Along) : (spot.Along, spot.Depth);
            placed.Add(new PlacedPlate(piece.Plate.Id, rules.SideMargin + x, rules.ClampMargin + y, piece.Width, piece.Length, piece.Rotated));
        }

        return placed.Count == 0 ? null : new ShelfFill(new NestSheet(stock.Id, stock.Width, stock.Length, placed), left);
    }

    private static (long Along, long Depth)? Place(List<Shelf> shelves, long along, long deep, long room, long depth, long gap)
    {
        foreach (var shelf in shelves)
        {
            if (deep <= shelf.Depth && shelf.Used + gap + along <= room)
            {
                var at = shelf.Used + gap;
                shelf.Used = at + along;
                return (at, shelf.At);
            }
        }

        var next = shelves.Count == 0 ? 0 : shelves[^1].At + shelves[^1].Depth + gap;
        if (next + deep > depth || along > room)
        {
            return null;
        }

        shelves.Add(new Shelf(next, deep) { Used = along });
        return (0, next);
    }

    private sealed class Shelf(long at, long depth)
    {
        public long At { get; } = at;

        public long Depth { get; } = depth;

        public long Used { get; set; }
    }
}
