namespace PlateTickets.Benchmarks.Nesting;

internal sealed record PackingItem(string Id, int Width, int Height, int Copies);
