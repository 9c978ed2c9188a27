using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Orders;

/// <summary>What another number of copies does.</summary>
/// <param name="Added">Plates that are made besides.</param>
/// <param name="Removed">Plates that are not wanted any more.</param>
/// <param name="NewSheets">The sheets that the added plates take; empty when they wait for the layout.</param>
/// <param name="Sheets">What becomes of the sheets whose plates are not wanted.</param>
public sealed record CopiesEffect(int Added, int Removed, IReadOnlyList<AskedSheet> NewSheets, LeavingEffect Sheets);

/// <summary>Changes how many plates of each colour an order has, also when its sheets are in work.</summary>
public sealed class OrderCopies(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, LayoutDesk layouts, RoomEvents events)
{
    /// <summary>What it would do; nothing is changed.</summary>
    /// <param name="number">The ticket's number.</param>
    /// <param name="copies">Plates of each colour; 1 to <see cref="OrderRules.MostCopies"/>.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">The ticket is closed, or the number cannot be.</exception>
    public async Task<CopiesEffect> EffectAsync(string number, int copies, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var change = await ReadAsync(db, number, copies, cancel);
        if (change.Added.Count == 0)
        {
            return new(0, change.Removed.Count, [], change.Leaving.Effect);
        }

        // Ids below zero: these plates are in no database.
        for (var i = 0; i < change.Added.Count; i++)
        {
            change.Added[i].Id = -1 - i;
        }

        var (_, nest) = await LayAsync(change.Order, change.Added, change.Turns, cancel);
        return new(change.Added.Count, 0, nest is null ? [] : [.. nest.Select(AskedSheet.Of)], change.Leaving.Effect);
    }

    /// <summary>
    /// Does it. Plates that are added go onto sheets at once, or wait for the layout when the shelf has not enough; plates that are not wanted are taken
    /// from where least work is lost.
    /// </summary>
    /// <param name="number">The ticket's number.</param>
    /// <param name="copies">Plates of each colour; 1 to <see cref="OrderRules.MostCopies"/>.</param>
    /// <param name="version">The order's version that the person looked at.</param>
    /// <param name="by">Who.</param>
    /// <param name="cancel">Cancels.</param>
    /// <returns>The new sheets' numbers.</returns>
    /// <exception cref="PlateRoomException">The ticket is closed, the number cannot be, or somebody else changed the order meanwhile; nothing was saved.</exception>
    public async Task<IReadOnlyList<string>> SetAsync(string number, int copies, int version, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        CopiesChange change;
        await using (var transaction = await db.BeginWriteAsync(cancel))
        {
            change = await ReadAsync(db, number, copies, cancel);
            db.Entry(change.Order).Property(o => o.Version).OriginalValue = version;
            change.Order.Copies = copies;
            db.Plates.AddRange(change.Added);
            foreach (var plate in change.Removed)
            {
                plate.OutOfSet = true;
            }

            await change.Leaving.GiveUpAsync("fewer copies are wanted", "its plates are not wanted any more", cancel);
            await SaveAsync(db, cancel);
            await MoveOnAsync(db, change.Order.Ticket!, cancel);
            await SaveAsync(db, cancel);
            await transaction.CommitAsync(cancel);
        }

        events.TellChanged([.. change.Leaving.Sheets.Select(s => s.Id)]);
        events.AskForPlan();
        return change.Added.Count == 0 ? [] : await LayOutAsync(change, by, cancel);
    }

    private static async Task<CopiesChange> ReadAsync(PlateRoomDb db, string number, int copies, CancellationToken cancel)
    {
        var order = await OrderChanges.OpenAsync(db, number, cancel);
        if (copies is < 1 or > OrderRules.MostCopies)
        {
            throw new PlateRoomException($"Copies must be 1 to {OrderRules.MostCopies}; it is the number of plates of each colour.");
        }

        var separations = await db.Separations.Where(s => s.TicketId == order.Id).OrderBy(s => s.Id).ToListAsync(cancel);
        var errors = new Dictionary<string, string>();
        SeparationRules.CheckPlates(separations.Count * copies, errors);
        if (errors.Count > 0)
        {
            throw new PlateRoomException(errors.Values.First());
        }

        var plates = (await db.Plates.Where(p => p.TicketId == order.Id && !p.OutOfSet).ToListAsync(cancel)).ToLookup(p => p.SeparationId);
        var lying = await LyingAsync(db, order.Id, cancel);
        var removed = plates.SelectMany(of => of.OrderBy(p => Loss(lying, p)).ThenByDescending(p => lying.GetValueOrDefault(p.Id)?.SheetId).ThenByDescending(p => p.Id).Take(of.Count() - copies)).ToList();
        var added = separations.SelectMany(s => Added(s, [.. plates[s.Id]], copies)).ToList();
        var turns = plates.Where(of => of.Any(p => lying.ContainsKey(p.Id))).ToDictionary(of => of.Key, of => lying[of.First(p => lying.ContainsKey(p.Id)).Id].Rotated ? PlateTurn.Across : PlateTurn.Along);
        return new(order, added, removed, turns, await LeavingPlates.SortAsync(db, removed.ConvertAll(p => p.Id), cancel));
    }

    private static async Task<Dictionary<int, Lying>> LyingAsync(PlateRoomDb db, int ticketId, CancellationToken cancel) =>
        (await db.Placements.Where(p => p.Plate!.TicketId == ticketId && !p.Plate.OutOfSet && p.Sheet!.State != SheetState.Cancelled)
            .Select(p => new { p.PlateId, Lying = new Lying(p.SheetId, p.Rotated, p.Sheet!.State == SheetState.Done, db.Scans.Any(c => c.SheetId == p.SheetId)) })
            .ToListAsync(cancel)).ToDictionary(p => p.PlateId, p => p.Lying);

    /// <summary>How much is lost with a plate: nothing without a sheet, most when it is made.</summary>
    private static int Loss(Dictionary<int, Lying> lying, Plate plate) =>
        !lying.TryGetValue(plate.Id, out var on) ? 0 : on.Done ? 3 : on.Scanned ? 2 : 1;

    private static IEnumerable<Plate> Added(Separation separation, List<Plate> there, int copies)
    {
        var free = Enumerable.Range(1, OrderRules.MostCopies + there.Count).Except(there.Select(p => p.Copy));
        return free.Take(Math.Max(0, copies - there.Count))
            .Select(copy => new Plate { TicketId = separation.TicketId, SeparationId = separation.Id, Copy = copy, WidthUm = separation.WidthUm, LengthUm = separation.LengthUm });
    }

    /// <summary>The ticket's state after its plates changed.</summary>
    private static async Task MoveOnAsync(PlateRoomDb db, Ticket ticket, CancellationToken cancel)
    {
        if (ticket.State == TicketState.WaitingForFiles)
        {
            return;
        }

        var wanted = db.Plates.Where(p => p.TicketId == ticket.Id && !p.OutOfSet);
        var unlaid = await wanted.AnyAsync(p => !db.Placements.Any(l => l.PlateId == p.Id), cancel);
        var open = await db.Placements.AnyAsync(l => l.Plate!.TicketId == ticket.Id && !l.Plate.OutOfSet && l.Sheet!.State != SheetState.Done && l.Sheet.State != SheetState.Cancelled, cancel);
        if (!unlaid && !open)
        {
            (ticket.State, ticket.DoneUtc) = (TicketState.Done, await db.Placements.Where(l => l.Plate!.TicketId == ticket.Id && !l.Plate.OutOfSet).MaxAsync(l => l.Sheet!.DoneUtc, cancel));
        }
        else if (ticket.State != TicketState.InWork)
        {
            ticket.State = unlaid ? TicketState.WaitingForLayout : TicketState.Ready;
        }
    }

    private async Task<IReadOnlyList<string>> LayOutAsync(CopiesChange change, string by, CancellationToken cancel)
    {
        var (shelf, nest) = await LayAsync(change.Order, change.Added, change.Turns, cancel);
        if (nest is null)
        {
            return [];
        }

        try
        {
            return await layouts.ReleaseAsync(change.Order.MaterialId, nest, shelf, by, cancel);
        }
        catch (PlateRoomException)
        {
            // Another has just taken the sheets: the plates are in and wait on the layout page, as with an empty shelf.
            return [];
        }
    }

    /// <summary>Lays the new plates by themselves, in the direction of the set: a plate must stretch as the others do. No layout when the shelf has not enough.</summary>
    private async Task<(Shelf Shelf, IReadOnlyList<NestSheet>? Nest)> LayAsync(Order order, List<Plate> plates, Dictionary<int, PlateTurn> turns, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var shelf = await layouts.ShelfAsync(order.MaterialId, plates.Count, cancel);
        var result = shelf.Lay(
            [.. plates.Select(p => new NestPlate(p.Id, p.WidthUm, p.LengthUm) { Set = order.Id, Separation = p.SeparationId, Turn = turns.GetValueOrDefault(p.SeparationId, turns.Values.FirstOrDefault()) })],
            room.NestRules);
        return (shelf, result is { TooLarge.Count: 0, NoSheetLeft.Count: 0 } ? result.Sheets : null);
    }

    private static async Task SaveAsync(PlateRoomDb db, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("Somebody else changed this order or scanned one of its sheets a moment ago. Look at it again; your change was not saved.");
        }
    }

    private sealed record Lying(int SheetId, bool Rotated, bool Done, bool Scanned);

    private sealed record CopiesChange(Order Order, List<Plate> Added, List<Plate> Removed, Dictionary<int, PlateTurn> Turns, LeavingPlates Leaving);
}
