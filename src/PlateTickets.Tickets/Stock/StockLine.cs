namespace PlateTickets.Tickets.Stock;

/// <summary>One stock size on the stock page.</summary>
/// <param name="Size">With its lots.</param>
/// <param name="Free">Sheets that no layout has taken and that have not expired; null where they are not counted.</param>
/// <param name="Taken">Sheets of layouts whose first station has not begun: they still lie on the shelf.</param>
/// <param name="LastTakenStartUtc">When the plan begins the last of them.</param>
/// <param name="Waiting">Sheets that the plates waiting for a layout would take.</param>
/// <param name="UsedLately">Sheets made in the last <see cref="StockQueries.DaysBack"/> days.</param>
/// <param name="LastsUntil">When the free sheets run out at that pace, after those that waiting plates take; null without use or count.</param>
/// <param name="Warnings">What somebody should do, one sentence each.</param>
public sealed record StockLine(
    StockSize Size, int? Free, int Taken, DateTime? LastTakenStartUtc, int Waiting, int UsedLately, DateOnly? LastsUntil, IReadOnlyList<string> Warnings);

/// <summary>The shelf of one material.</summary>
public sealed record MaterialStock(int MaterialId, IReadOnlyList<StockLine> Sizes, IReadOnlyList<Remnant> Remnants);
