using PlateTickets.Tickets.Orders;

namespace PlateTickets.Tickets.Sheets;

/// <summary>
/// Which sheets carry what. Asked from the placements: the other way round, by the sheets that have one, SQLite would read every sheet that was ever made.
/// </summary>
internal static class SheetsOf
{
    /// <summary>The sheets with a plate of the ticket.</summary>
    public static IQueryable<Sheet> Ticket(PlateRoomDb db, int ticketId) =>
        db.Sheets.Where(s => db.Placements.Where(p => p.Plate!.TicketId == ticketId).Select(p => p.SheetId).Contains(s.Id));

    /// <summary>The sheets with a plate that the ticket's set still counts on.</summary>
    public static IQueryable<Sheet> Set(PlateRoomDb db, int ticketId) =>
        db.Sheets.Where(s => db.Placements.Where(p => p.Plate!.TicketId == ticketId && !p.Plate.OutOfSet).Select(p => p.SheetId).Contains(s.Id));

    /// <summary>The sheets with one of these plates.</summary>
    public static IQueryable<Sheet> Plates(PlateRoomDb db, IReadOnlyCollection<int> plateIds) =>
        db.Sheets.Where(s => db.Placements.Where(p => plateIds.Contains(p.PlateId)).Select(p => p.SheetId).Contains(s.Id));

    /// <summary>The tickets whose set counts on a plate of the sheet.</summary>
    public static IQueryable<Ticket> Tickets(PlateRoomDb db, int sheetId) =>
        db.Tickets.Where(t => db.Placements.Where(p => p.SheetId == sheetId && !p.Plate!.OutOfSet).Select(p => p.Plate!.TicketId).Contains(t.Id));
}
