namespace PlateTickets.Planning.Nesting;

/// <summary>A cut from edge to edge of a piece: micrometres from the sheet's corner.</summary>
/// <param name="AroundTheDrum">True for a cut that runs around the drum, at a place on the axis; false for one along the axis.</param>
/// <param name="At">Where it lies: the middle of the gap between the plates on its two sides.</param>
/// <param name="From">Where it begins, on the edge of the piece.</param>
/// <param name="To">Where it ends.</param>
public sealed record Cut(bool AroundTheDrum, long At, long From, long To);

/// <summary>The cuts that part the plates of a sheet, in the order in which they can be made; each plate is then trimmed to its size.</summary>
public static class CutList
{
    /// <param name="sheet">With its plates.</param>
    /// <param name="gap">So much room a cut needs between two plates.</param>
    /// <returns>Empty for one plate, and null when no cut from edge to edge parts some of them.</returns>
    public static IReadOnlyList<Cut>? Of(NestSheet sheet, long gap = 0)
    {
        var cuts = new List<Cut>();
        return Part([.. sheet.Plates], new Piece(0, 0, sheet.Width, sheet.Length), gap, cuts) ? cuts : null;
    }

    // Any cut that is possible now stays possible later, so the first one found may be taken.
    private static bool Part(List<PlacedPlate> plates, Piece piece, long gap, List<Cut> cuts)
    {
        if (plates.Count < 2)
        {
            return true;
        }

        if (Split(plates, gap, p => p.X, p => p.X + p.Width) is var (left, right, x))
        {
            cuts.Add(new Cut(true, x, piece.Y, piece.Y + piece.Length));
            return Part(left, piece with { Width = x - piece.X }, gap, cuts)
                && Part(right, piece with { X = x, Width = piece.X + piece.Width - x }, gap, cuts);
        }

        if (Split(plates, gap, p => p.Y, p => p.Y + p.Length) is var (lower, upper, y))
        {
            cuts.Add(new Cut(false, y, piece.X, piece.X + piece.Width));
            return Part(lower, piece with { Length = y - piece.Y }, gap, cuts)
                && Part(upper, piece with { Y = y, Length = piece.Y + piece.Length - y }, gap, cuts);
        }

        return false;
    }

    private static (List<PlacedPlate> One, List<PlacedPlate> Other, long At)? Split(
        List<PlacedPlate> plates, long gap, Func<PlacedPlate, long> from, Func<PlacedPlate, long> to)
    {
        var sorted = plates.OrderBy(from).ThenBy(to).ToList();
        var reach = to(sorted[0]);
        for (var i = 1; i < sorted.Count; i++)
        {
            if (from(sorted[i]) >= reach + gap)
            {
                return (sorted[..i], sorted[i..], (reach + from(sorted[i])) / 2);
            }

            reach = Math.Max(reach, to(sorted[i]));
        }

        return null;
    }

    private readonly record struct Piece(long X, long Y, long Width, long Length);
}
