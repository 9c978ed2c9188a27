namespace PlateTickets.Tickets.Orders;

/// <summary>Something about a file that a person should see before plates are made of it.</summary>
/// <param name="Sentence">What it is and what to do.</param>
/// <param name="NeedsReason">True where the plate would most likely be useless: it is taken with a person's reason only.</param>
public sealed record SeparationFinding(string Sentence, bool NeedsReason);
