using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders;

/// <summary>What cancelling a ticket does to its sheets.</summary>
/// <param name="PutBack">Not started and of this ticket alone: cancelled, and the raw sheets are stock again.</param>
/// <param name="GivenUp">Begun and of this ticket alone: cancelled, or on hold until it comes out of its machine.</param>
/// <param name="GoOn">Sheets that carry plates of other tickets too.</param>
/// <param name="Unlaid">Plates that have no sheet yet.</param>
public sealed record CancelEffect(IReadOnlyList<string> PutBack, IReadOnlyList<string> GivenUp, IReadOnlyList<string> GoOn, int Unlaid);

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
    public async Task<CancelEffect> EffectAsync(string number, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var order = await OpenAsync(db, number, cancel);
        return (await SortAsync(db, order.Id, cancel)).Effect;
    }

    /// <summary>Cancels a ticket. Its sheets that were not started go back to stock; those in work are given up, unless others have plates on them.</summary>
    /// <exception cref="PlateRoomException">Without a reason, or the ticket is closed already.</exception>
    public async Task<CancelEffect> CancelAsync(string number, string reason, string by, CancellationToken cancel = default)
    {
        if (string.IsNullOrWhiteSpace(reason))
        {
            throw new PlateRoomException("Say why the order is cancelled: the plate room will ask.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.Database.BeginTransactionAsync(System.Data.IsolationLevel.Serializable, cancel);
        var order = await OpenAsync(db, number, cancel);
        var (effect, sheets) = await SortAsync(db, order.Id, cancel);
        (order.Ticket!.State, order.Ticket.CancelledBecause) = (TicketState.Cancelled, reason.Trim());
        var fresh = sheets.Where(s => effect.PutBack.Contains(s.Number)).ToList();
        await SheetReturn.PutBackAsync(db, fresh, "its order was cancelled", cancel);
        foreach (var sheet in sheets.Where(s => effect.GivenUp.Contains(s.Number)))
        {
            // What is in a machine must come out of it: it is cancelled when it does.
            if (sheet.Stages.Exists(s => s.State == StageState.Running))
            {
                (sheet.State, sheet.HoldReason) = (SheetState.OnHold, $"the order was cancelled, {reason.Trim()}");
            }
            else
            {
                (sheet.State, sheet.CurrentStation, sheet.HoldReason) = (SheetState.Cancelled, null, "");
            }
        }

        foreach (var sheet in fresh)
        {
            (sheet.State, sheet.CurrentStation, sheet.HoldReason) = (SheetState.Cancelled, null, "");
        }

        try
        {
            await db.SaveChangesAsync(cancel);
            await transaction.CommitAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("One of its sheets was scanned this moment. Look at the ticket again; nothing was cancelled.");
        }

        events.TellChanged([.. sheets.Select(s => s.Id)]);
        events.AskForPlan();
        return effect;
    }

    private static async Task<Order> OpenAsync(PlateRoomDb db, string number, CancellationToken cancel)
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

    private static async Task<(CancelEffect Effect, List<Sheet> Sheets)> SortAsync(PlateRoomDb db, int ticketId, CancellationToken cancel)
    {
        var sheets = await db.Sheets.AsSplitQuery()
            .Where(s => s.State != SheetState.Done && s.State != SheetState.Cancelled && s.Placements.Any(p => p.Plate!.TicketId == ticketId && !p.Plate.Replaced))
            .Include(s => s.Stages).Include(s => s.Placements).ThenInclude(p => p.Plate!.Ticket)
            .OrderBy(s => s.Id).ToListAsync(cancel);
        var ids = sheets.ConvertAll(s => s.Id);
        var scanned = await db.Scans.Where(s => s.SheetId != null && ids.Contains(s.SheetId.Value)).Select(s => s.SheetId!.Value).Distinct().ToListAsync(cancel);
        var shared = sheets.Where(s => s.Placements.Exists(p => !p.Plate!.Replaced && p.Plate.TicketId != ticketId && p.Plate.Ticket!.State != TicketState.Cancelled)).ToHashSet();
        var unlaid = await db.Plates.CountAsync(p => p.TicketId == ticketId && !p.Replaced && !db.Placements.Any(l => l.PlateId == p.Id), cancel);
        return (
            new CancelEffect(
                [.. sheets.Where(s => !shared.Contains(s) && !scanned.Contains(s.Id)).Select(s => s.Number)],
                [.. sheets.Where(s => !shared.Contains(s) && scanned.Contains(s.Id)).Select(s => s.Number)],
                [.. shared.OrderBy(s => s.Id).Select(s => s.Number)], unlaid),
            sheets);
    }
}
