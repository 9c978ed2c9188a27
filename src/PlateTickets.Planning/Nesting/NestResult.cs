namespace PlateTickets.Planning.Nesting;

/// <summary>The sheets; the plates that fit on no stock size at all; and those for which there are not enough sheets.</summary>
public sealed record NestResult(IReadOnlyList<NestSheet> Sheets, IReadOnlyList<NestPlate> TooLarge)
{
    public IReadOnlyList<NestPlate> NoSheetLeft { get; init; } = [];
}
