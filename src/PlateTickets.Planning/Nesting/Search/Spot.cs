namespace PlateTickets.Planning.Nesting.Search;

/// <summary>Where a plate lies in the room of its sheet.</summary>
internal readonly record struct Spot(int Item, int X, int Y, bool Turned);
