namespace PlateTickets.Planning.Nesting;

/// <summary>Where a plate lies: micrometres from the sheet's corner, x along the drum axis, y around the drum.</summary>
public sealed record PlacedPlate(int PlateId, long X, long Y, long Width, long Length, bool Rotated);
