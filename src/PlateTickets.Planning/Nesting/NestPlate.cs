namespace PlateTickets.Planning.Nesting;

/// <summary>A plate to lay out: micrometres. <paramref name="Across"/> is its size across the print (width), <paramref name="Around"/> around the cylinder (length).</summary>
public sealed record NestPlate(int Id, long Across, long Around)
{
    /// <summary>The set it belongs to: all plates of a set lie in the same direction, along or across.</summary>
    public int Set { get; init; }

    /// <summary>The separation it is a copy of; -1 for one that has no copies.</summary>
    public int Separation { get; init; } = -1;

    public PlateTurn Turn { get; init; }

    /// <summary>When it is due, in minutes from any start.</summary>
    public long Due { get; init; }
}
