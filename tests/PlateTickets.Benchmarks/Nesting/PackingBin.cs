namespace PlateTickets.Benchmarks.Nesting;

/// <summary>A size of bin; without copies as many as wanted when it is the only size, else one.</summary>
internal sealed record PackingBin(string Id, int Width, int Height, int? Copies);
