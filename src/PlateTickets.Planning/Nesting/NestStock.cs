namespace PlateTickets.Planning.Nesting;

/// <summary>A size in which raw sheets are bought, or a remnant: micrometres. Width lies along the drum axis, length around the drum.</summary>
public sealed record NestStock(int Id, long Width, long Length)
{
    /// <summary>How many there are; without a number as many as wanted.</summary>
    public int? Copies { get; init; }

    /// <summary>The delivery that they come from.</summary>
    public int Lot { get; init; }
}
