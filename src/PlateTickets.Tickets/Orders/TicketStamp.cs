using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Orders;

/// <summary>A ticket was changed after the caller looked at it.</summary>
public sealed class TicketChangedException(string sentence) : Exception(sentence);

/// <summary>Names the state of a ticket, its order and its sheets in a short text: another state has another text. Planned times are left out.</summary>
public static class TicketStamp
{
    public static string Of(TicketView view) => Of(view.Order.Version, view.Ticket.Version, view.Sheets.Select(s => (s.Id, s.Version)));

    /// <summary>Refuses when the ticket is no longer as it was seen. Call it within the transaction that changes it.</summary>
    /// <exception cref="TicketChangedException">Somebody changed it.</exception>
    internal static async Task CheckAsync(PlateRoomDb db, int ticketId, string seen, CancellationToken cancel)
    {
        var order = await db.Orders.AsNoTracking().Where(o => o.Id == ticketId).Select(o => new { o.Version, Ticket = o.Ticket!.Version }).SingleAsync(cancel);
        var sheets = await SheetsOf.Ticket(db, ticketId).AsNoTracking().Select(s => new { s.Id, s.Version }).ToListAsync(cancel);
        if (Of(order.Version, order.Ticket, sheets.Select(s => (s.Id, s.Version))) != seen)
        {
            throw new TicketChangedException("Somebody changed this ticket since you looked at it. Look again, then decide.");
        }
    }

    private static string Of(int order, int ticket, IEnumerable<(int Id, int Version)> sheets) => string.Create(
        CultureInfo.InvariantCulture, $"{order}.{ticket}.{string.Join('.', sheets.OrderBy(s => s.Id).Select(s => $"{s.Id:x}-{s.Version:x}"))}");
}
