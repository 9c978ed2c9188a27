using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations.Duty;

/// <summary>Records what changes the room's day: machines down or up, people on duty, tickets in a hurry or on hold. The plan follows.</summary>
public sealed class DutyDesk(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock)
{
    private static readonly TimeSpan Longest = TimeSpan.FromDays(60);

    /// <exception cref="PlateRoomException">The times make no sense.</exception>
    public async Task SetDownAsync(int equipmentId, DateTime fromUtc, DateTime toUtc, string reason, string by, CancellationToken cancel = default)
    {
        Refuse(fromUtc, toUtc, "downtime");
        await using var db = Open(by);
        db.Downtimes.Add(new EquipmentDowntime { EquipmentId = equipmentId, FromUtc = fromUtc, ToUtc = toUtc, Reason = reason.Trim(), MadeBy = by });
        await SaveAsync(db, cancel);
    }

    /// <summary>The machine is back: whatever said that it is down ends now.</summary>
    public async Task SetUpAsync(int equipmentId, string by, CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = Open(by);
        foreach (var down in await db.Downtimes.Where(d => d.EquipmentId == equipmentId && d.FromUtc <= now && d.ToUtc > now).ToListAsync(cancel))
        {
            down.ToUtc = now;
        }

        await SaveAsync(db, cancel);
    }

    /// <summary>Operators more or fewer than the shifts say.</summary>
    /// <exception cref="PlateRoomException">The times make no sense, or nobody is added or missing.</exception>
    public async Task ChangePeopleAsync(DateTime fromUtc, DateTime toUtc, int people, string reason, string by, CancellationToken cancel = default)
    {
        Refuse(fromUtc, toUtc, people < 0 ? "absence" : "overtime");
        if (people is 0 or < -50 or > 50)
        {
            throw new PlateRoomException("Say how many operators are missing or stay longer: 1 to 50.");
        }

        await using var db = Open(by);
        db.DutyChanges.Add(new DutyChange { FromUtc = fromUtc, ToUtc = toUtc, People = people, Reason = reason.Trim(), MadeBy = by });
        await SaveAsync(db, cancel);
    }

    /// <summary>Takes back an absence or an overtime from now on.</summary>
    public async Task EndPeopleChangeAsync(int id, string by, CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = Open(by);
        if (await db.DutyChanges.FindAsync([id], cancel) is { } change && change.ToUtc > now)
        {
            change.ToUtc = change.FromUtc > now ? change.FromUtc : now;
            await SaveAsync(db, cancel);
        }
    }

    /// <summary>How many operators each shift has; null for enough.</summary>
    public async Task SetOperatorsAsync(int shiftId, int? operators, string by, CancellationToken cancel = default)
    {
        if (operators is < 1 or > 50)
        {
            throw new PlateRoomException("A shift has 1 to 50 operators; leave it empty when there are always enough.");
        }

        await using var db = Open(by);
        var site = await db.Sites.Include(s => s.Shifts).SingleAsync(cancel);
        site.Shifts.Single(s => s.Id == shiftId).Operators = operators;
        await SaveAsync(db, cancel);
    }

    /// <summary>A ticket goes before all others, or no longer.</summary>
    /// <param name="ticketId">The ticket.</param>
    /// <param name="rush">Whether it goes first.</param>
    /// <param name="by">Who decides.</param>
    /// <param name="seen">The <see cref="TicketStamp"/> that the caller looked at; null when it does not matter.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="TicketChangedException">The ticket is no longer as it was seen.</exception>
    public async Task RushAsync(int ticketId, bool rush, string by, string? seen = null, CancellationToken cancel = default)
    {
        await using var db = Open(by);
        await using var transaction = await CheckedAsync(db, ticketId, seen, cancel);
        var ticket = await db.Tickets.Include(t => t.Order).SingleAsync(t => t.Id == ticketId, cancel);
        ticket.Weight = rush ? Ticket.RushWeight : 1;
        await SaveAsync(db, cancel);
        events.TellChanged(await SheetIdsAsync(db, ticketId, cancel));
    }

    /// <summary>Sheets that wait are set aside with a reason; what is at a station is finished there first.</summary>
    /// <returns>How many sheets are on hold now.</returns>
    /// <exception cref="PlateRoomException">There is no reason, or no sheet that waits.</exception>
    /// <exception cref="TicketChangedException">The ticket is no longer as it was <paramref name="seen"/>.</exception>
    public async Task<int> HoldAsync(int ticketId, string reason, string by, string? seen = null, CancellationToken cancel = default)
    {
        if (string.IsNullOrWhiteSpace(reason))
        {
            throw new PlateRoomException("Say why the ticket is put on hold: whoever finds its sheets will ask.");
        }

        await using var db = Open(by);
        await using var transaction = await CheckedAsync(db, ticketId, seen, cancel);
        var sheets = await SheetsOf.Ticket(db, ticketId).Where(s => s.State == SheetState.Waiting).ToListAsync(cancel);
        if (sheets.Count == 0)
        {
            throw new PlateRoomException("No sheet of this ticket waits: what is at a station is finished there first.");
        }

        foreach (var sheet in sheets)
        {
            (sheet.State, sheet.HoldReason) = (SheetState.OnHold, reason.Trim());
        }

        await SaveAsync(db, cancel);
        events.TellChanged([.. sheets.Select(s => s.Id)]);
        return sheets.Count;
    }

    /// <summary>All sheets of the ticket that are on hold go on.</summary>
    /// <exception cref="TicketChangedException">The ticket is no longer as it was <paramref name="seen"/>.</exception>
    public async Task<int> GoOnAsync(int ticketId, string by, string? seen = null, CancellationToken cancel = default)
    {
        await using var db = Open(by);
        await using var transaction = await CheckedAsync(db, ticketId, seen, cancel);
        var sheets = await SheetsOf.Ticket(db, ticketId).Include(s => s.Stages).Where(s => s.State == SheetState.OnHold).ToListAsync(cancel);
        foreach (var sheet in sheets)
        {
            await StageDesk.GoOnFromHoldAsync(db, sheet, cancel);
        }

        await SaveAsync(db, cancel);
        events.TellChanged([.. sheets.Select(s => s.Id)]);
        return sheets.Count;
    }

    private static Task<List<int>> SheetIdsAsync(PlateRoomDb db, int ticketId, CancellationToken cancel) =>
        db.Placements.Where(p => p.Plate!.TicketId == ticketId).Select(p => p.SheetId).Distinct().ToListAsync(cancel);

    private static void Refuse(DateTime fromUtc, DateTime toUtc, string what)
    {
        if (toUtc <= fromUtc)
        {
            throw new PlateRoomException($"The {what} must end after it begins: choose a later end.");
        }

        if (toUtc - fromUtc > Longest)
        {
            throw new PlateRoomException($"A {what} of more than {Longest.TotalDays:0} days is no matter of a plan: change the shifts or the equipment.");
        }
    }

    private PlateRoomDb Open(string by)
    {
        var db = databases.CreateDbContext();
        (db.ActingAs, db.Clock) = (by, clock);
        return db;
    }

    // From the look at the ticket to the change nobody else writes: neither a scan nor the plan can come between.
    private static async Task<WriteTransaction> CheckedAsync(PlateRoomDb db, int ticketId, string? seen, CancellationToken cancel)
    {
        var transaction = await db.BeginWriteAsync(cancel);
        try
        {
            if (seen is not null)
            {
                await TicketStamp.CheckAsync(db, ticketId, seen, cancel);
            }

            return transaction;
        }
        catch
        {
            await transaction.DisposeAsync();
            throw;
        }
    }

    private async Task SaveAsync(PlateRoomDb db, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
            if (db.Database.CurrentTransaction is { } checkedFirst)
            {
                await checkedFirst.CommitAsync(cancel);
            }
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("Somebody scanned one of these sheets, or the plan moved it, in this moment. Nothing was changed: do it once more.");
        }

        rooms.Forget();
        events.AskForPlan();
    }
}
