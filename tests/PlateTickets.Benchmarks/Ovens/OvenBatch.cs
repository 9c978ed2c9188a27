namespace PlateTickets.Benchmarks.Ovens;

/// <summary>Jobs that lie in a machine together from start to end.</summary>
internal sealed record OvenBatch(int Machine, int Start, int End, int[] Jobs);
