namespace PlateTickets.Planning.Nesting.Search;

/// <summary>
/// The plates and sheets of one nesting in numbers that are quick to work with. A gap between plates is part of every
/// plate's size and of every sheet's room, so that the search knows only rectangles that touch.
/// </summary>
internal sealed class Problem
{
    private (int Width, int Length) _least;

    public required int[] Width { get; init; }

    public required int[] Length { get; init; }

    /// <summary>May it be turned by itself? Others turn with their set or not at all.</summary>
    public required bool[] Turns { get; init; }

    /// <summary>Index of the set, or -1 for a plate that belongs to none.</summary>
    public required int[] Set { get; init; }

    /// <summary>Index of the separation: copies of one share it.</summary>
    public required int[] Separation { get; init; }

    public required long[] Due { get; init; }

    public required int Sets { get; init; }

    public required SheetKind[] Kinds { get; init; }

    public required NestRules Rules { get; init; }

    /// <summary>No plate is narrower than this in any direction that it may lie in.</summary>
    public int LeastWidth => _least.Width;

    public int LeastLength => _least.Length;

    public int Count => Width.Length;

    public double Area(int item) => (double)Width[item] * Length[item];

    /// <summary>Does anything but the sizes forbid that two plates share a sheet?</summary>
    public bool HasCompany => Rules.DueApart != long.MaxValue || Rules.Copies == CopyRule.Apart || (Rules.OneLotPerSet && Kinds.Length > 1);

    /// <summary>Call once everything is set.</summary>
    public Problem Measured()
    {
        var (width, length) = (Width.Min(), Length.Min());
        _least = Array.Exists(Turns, t => t) ? (Math.Min(width, length), Math.Min(width, length)) : (width, length);
        return this;
    }
}
