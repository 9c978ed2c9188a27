namespace PlateTickets.Planning.Nesting.Search;

/// <summary>A stock size or remnant: the room that plates may use, and what a sheet of it costs in area.</summary>
internal readonly record struct SheetKind(int Index, int Width, int Length, double Cost, int Copies, int Lot);
