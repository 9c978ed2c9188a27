using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders;

/// <summary>Changes an order after it was entered: due time, cancellation.</summary>
public sealed class OrderChanges(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock)
{
    /// <summary>Gives the order another due time; the plan follows at once.</summary>
    /// <param name="number">The ticket's number.</param>
    /// <param name="dueUtc">Later than now, within a year.</param>
    /// <param name="version">The order's version that the person looked at.</param>
    /// <param name="by">Who.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">The ticket is closed, the time is wrong, or somebody else changed the order meanwhile.</exception>
    public async Task SetDueAsync(string number, DateTime dueUtc, int version, string by, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        if (OrderRules.DueRefusal(dueUtc, room, now) is { } refusal)
        {
            throw new PlateRoomException(refusal);
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var order = await OpenAsync(db, number, cancel);
        db.Entry(order).Property(o => o.Version).OriginalValue = version;
        order.DueUtc = dueUtc;
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("Somebody else changed this order a moment ago. Look at it again; your change was not saved.");
        }

        events.TellChanged(await db.Placements.Where(p => p.Plate!.TicketId == order.Id).Select(p => p.SheetId).Distinct().ToListAsync(cancel));
        events.AskForPlan();
    }

    /// <summary>What would become of its sheets; nothing is changed.</summary>
    /// <exception cref="PlateRoomException">The ticket is closed.</exception>
    public async Task<LeavingEffect> EffectAsync(string number, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var order = await OpenAsync(db, number, cancel);
        return (await LeavingAsync(db, order.Id, cancel)).Effect;
    }

    /// <summary>Cancels a ticket. Its sheets that were not started go back to stock; those in work are given up, unless others have plates on them.</summary>
    /// <exception cref="PlateRoomException">Without a reason, or the ticket is closed already.</exception>
    public async Task<LeavingEffect> CancelAsync(string number, string reason, string by, CancellationToken cancel = default)
    {
        if (string.IsNullOrWhiteSpace(reason))
        {
            throw new PlateRoomException("Say why the order is cancelled: the plate room will ask.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var order = await OpenAsync(db, number, cancel);
        var leaving = await LeavingAsync(db, order.Id, cancel);
        (order.Ticket!.State, order.Ticket.CancelledBecause) = (TicketState.Cancelled, reason.Trim());
        await leaving.GiveUpAsync("its order was cancelled", $"the order was cancelled, {reason.Trim()}", cancel);
        try
        {
            await db.SaveChangesAsync(cancel);
            await transaction.CommitAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("One of its sheets was scanned this moment. Look at the ticket again; nothing was cancelled.");
        }

        events.TellChanged([.. leaving.Sheets.Select(s => s.Id)]);
        events.AskForPlan();
        return leaving.Effect;
    }

    internal static async Task<Order> OpenAsync(PlateRoomDb db, string number, CancellationToken cancel)
    {
        var order = await db.Orders.Include(o => o.Ticket).SingleOrDefaultAsync(o => o.Number == number, cancel)
            ?? throw new PlateRoomException($"There is no order {TrackingNumber.ForPeople(number)}.");
        return order.Ticket!.State switch
        {
            TicketState.Done => throw new PlateRoomException($"Ticket {TrackingNumber.ForPeople(number)} is done: there is nothing left to change. Order it again if more plates are wanted."),
            TicketState.Cancelled => throw new PlateRoomException($"Ticket {TrackingNumber.ForPeople(number)} is cancelled already."),
            _ => order,
        };
    }

    private static async Task<LeavingPlates> LeavingAsync(PlateRoomDb db, int ticketId, CancellationToken cancel) =>
        await LeavingPlates.SortAsync(db, await db.Plates.Where(p => p.TicketId == ticketId && !p.OutOfSet).Select(p => p.Id).ToListAsync(cancel), cancel);
}
