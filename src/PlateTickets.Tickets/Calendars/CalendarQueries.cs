using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Calendars;

/// <summary>A ticket's due time.</summary>
/// <param name="Sequence">Grows with every change of order and ticket.</param>
public sealed record DueEvent(
    int TicketId, string Number, string Customer, string Title, string Press, string Material, DateTime DueUtc, TicketState State, DateTime? DoneUtc, int Plates, int Sequence);

/// <summary>A lamp reading or a step test that is due on a day of the site.</summary>
public sealed record CheckEvent(string Key, string Title, DateOnly Day, bool IsOverdue);

/// <summary>Reads what calendars show.</summary>
public sealed class CalendarQueries(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, TimeProvider clock)
{
    /// <summary>So long a due time stays in the calendar after it.</summary>
    public static readonly TimeSpan KeptAfter = TimeSpan.FromDays(14);

    /// <summary>At most so many tickets, the earliest due first.</summary>
    public const int MostTickets = 2000;

    public async Task<IReadOnlyList<DueEvent>> DueTimesAsync(CancellationToken cancel = default)
    {
        var from = clock.GetUtcNow().UtcDateTime - KeptAfter;
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Orders.AsNoTracking().Where(o => o.DueUtc >= from).OrderBy(o => o.DueUtc).ThenBy(o => o.Id).Take(MostTickets)
            .Select(o => new DueEvent(
                o.Id, o.Number, o.Customer!.Name, o.Title, o.Press!.Name, o.Material!.Name, o.DueUtc, o.Ticket!.State, o.Ticket.DoneUtc, o.Ticket.Plates.Count(p => !p.OutOfSet),
                o.Version + o.Ticket.Version))
            .ToListAsync(cancel);
    }

    /// <summary>What is overdue stands on today.</summary>
    public async Task<IReadOnlyList<CheckEvent>> ChecksAsync(CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var today = SiteClock.Local(now, room.Zone).Date;
        return
        [
            .. DueChecks.All(room, await ShiftFacts.StepTestsAsync(db, cancel))
                .Select(c => (Check: c, Day: c.DueUtc is { } due && due > now ? SiteClock.Local(due, room.Zone).Date : today))
                .OrderBy(c => c.Day).ThenBy(c => c.Check.Key, StringComparer.Ordinal)
                .Select(c => new CheckEvent(c.Check.Key, c.Check.Title, DateOnly.FromDateTime(c.Day), c.Check.DueUtc is null || c.Check.DueUtc <= now)),
        ];
    }
}
