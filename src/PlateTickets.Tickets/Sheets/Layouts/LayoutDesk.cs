using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Sheets.Layouts;

/// <summary>How many plates of a material wait for a sheet, and when the first of them is due.</summary>
public sealed record WaitingMaterial(int MaterialId, int Plates, int Tickets, DateTime FirstDueUtc);

/// <summary>A layout released lately.</summary>
public sealed record ReleasedLayout(int Id, int MaterialId, DateTime ReleasedUtc, string ReleasedBy, DateTime? UndoneUtc, IReadOnlyList<string> SheetNumbers, bool Scanned)
{
    public bool CanBeUndone => UndoneUtc is null && !Scanned;
}

/// <summary>Plates that wait for a sheet, the release of a layout that carries them, and its undoing.</summary>
public sealed class LayoutDesk(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock)
{
    /// <summary>More plates than this are laid out in several goes, the most urgent first.</summary>
    public const int MostPlates = 200;

    public async Task<IReadOnlyList<WaitingMaterial>> MaterialsAsync(CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await Waiting(db).GroupBy(p => p.Ticket!.Order!.MaterialId)
            .Select(g => new WaitingMaterial(g.Key, g.Count(), g.Select(p => p.TicketId).Distinct().Count(), g.Min(p => p.Ticket!.Order!.DueUtc)))
            .ToListAsync(cancel);
    }

    /// <summary>The plates of a material that wait for a sheet, by due time; at most <see cref="MostPlates"/>.</summary>
    public async Task<IReadOnlyList<WaitingPlate>> WaitingAsync(int materialId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await Waiting(db).Where(p => p.Ticket!.Order!.MaterialId == materialId)
            .OrderBy(p => p.Ticket!.Order!.DueUtc).ThenBy(p => p.Id).Take(MostPlates)
            .Select(p => new WaitingPlate(
                p.Id, p.TicketId, p.Ticket!.Order!.Number, p.Ticket.Order.Customer!.Name, p.Ticket.Order.Title, p.Ticket.Order.DueUtc, p.Ticket.Weight,
                p.Ticket.Order.MaterialId, p.SeparationId, p.Separation!.Colour, p.Copy, p.Ticket.Order.Copies, p.WidthUm, p.LengthUm))
            .ToListAsync(cancel);
    }

    public async Task<Shelf> ShelfAsync(int materialId, int plates, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await Shelf.ReadAsync(db, room, materialId, plates, clock.GetUtcNow().UtcDateTime, cancel);
    }

    public async Task<IReadOnlyList<ReleasedLayout>> LatelyAsync(int materialId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var found = await db.SheetLayouts.AsNoTracking().Where(l => l.MaterialId == materialId).OrderByDescending(l => l.Id).Take(5)
            .Select(l => new
            {
                Layout = l,
                Numbers = l.Sheets.OrderBy(s => s.Id).Select(s => s.Number).ToList(),
                Scanned = l.Sheets.Any(s => db.Scans.Any(c => c.SheetId == s.Id)),
            })
            .ToListAsync(cancel);
        return [.. found.Select(f => new ReleasedLayout(
            f.Layout.Id, f.Layout.MaterialId, f.Layout.ReleasedUtc, f.Layout.ReleasedBy, f.Layout.UndoneUtc, f.Numbers, f.Scanned))];
    }

    /// <summary>Makes the sheets, takes them from the shelf, keeps the remnants worth keeping, and tells the plan.</summary>
    /// <param name="materialId">All plates are of this material.</param>
    /// <param name="sheets">The layout; stock ids are those of <paramref name="shelf"/>.</param>
    /// <param name="shelf">What the layout was made from.</param>
    /// <param name="by">Who releases it.</param>
    /// <param name="cancel">Cancels.</param>
    /// <returns>The new sheets' numbers, in the order of the layout.</returns>
    /// <exception cref="PlateRoomException">With what is wrong; nothing was saved.</exception>
    public async Task<IReadOnlyList<string>> ReleaseAsync(
        int materialId, IReadOnlyList<NestSheet> sheets, Shelf shelf, string by, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var ids = sheets.SelectMany(s => s.Plates).Select(p => p.PlateId).ToList();
        var plates = await Waiting(db).Where(p => ids.Contains(p.Id)).Include(p => p.Ticket!.Order).ToListAsync(cancel);
        LayoutRules.Check(room, materialId, sheets, plates);
        var taker = new StockTaker(db, room, materialId, now);
        await taker.ReadAsync(shelf, sheets, cancel);
        var made = await taker.MakeAsync(shelf, sheets, cancel);
        db.SheetLayouts.Add(new SheetLayout { MaterialId = materialId, ReleasedUtc = now, ReleasedBy = by, Sheets = made });
        await SaveAsync(db, cancel);
        taker.KeepRemnants();
        var tickets = plates.Select(p => p.TicketId).Distinct().ToList();
        foreach (var ticket in await db.Tickets.Where(t => tickets.Contains(t.Id) && t.State == TicketState.WaitingForLayout
            && t.Plates.All(p => p.OutOfSet || db.Placements.Any(l => l.PlateId == p.Id))).ToListAsync(cancel))
        {
            ticket.State = TicketState.Ready;
        }

        await SaveAsync(db, cancel);
        await transaction.CommitAsync(cancel);
        events.TellChanged([.. made.Select(s => s.Id)]);
        events.AskForPlan();
        return [.. made.Select(s => s.Number)];
    }

    /// <summary>Takes a layout back: its plates wait again, its sheets and remnants go back to the shelf.</summary>
    /// <exception cref="PlateRoomException">One of its sheets was scanned, or one of its remnants is used.</exception>
    public async Task UndoAsync(int layoutId, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var layout = await db.SheetLayouts.Include(l => l.Sheets).ThenInclude(s => s.Placements).AsSplitQuery()
            .SingleOrDefaultAsync(l => l.Id == layoutId, cancel) ?? throw new PlateRoomException("There is no such layout any more.");
        if (layout.UndoneUtc is not null)
        {
            throw new PlateRoomException("This layout has been undone already.");
        }

        var ids = layout.Sheets.ConvertAll(s => s.Id);
        if (await db.Scans.Where(s => s.SheetId != null && ids.Contains(s.SheetId.Value)).Select(s => s.SheetId!.Value).FirstOrDefaultAsync(cancel) is var scanned and not 0)
        {
            throw new PlateRoomException(
                $"Sheet {TrackingNumber.ForPeople(layout.Sheets.Single(s => s.Id == scanned).Number)} has been scanned: the layout can no longer be undone.");
        }

        (layout.UndoneUtc, layout.UndoneBy) = (clock.GetUtcNow().UtcDateTime, by);
        await PutBackAsync(db, layout, ids, cancel);
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        events.TellChanged(ids);
        events.AskForPlan();
    }

    private static async Task PutBackAsync(PlateRoomDb db, SheetLayout layout, List<int> sheetIds, CancellationToken cancel)
    {
        if (await db.Remnants.Where(r => sheetIds.Contains(r.FromSheetId) && r.TakenBySheetId != null).Select(r => r.Mark).FirstOrDefaultAsync(cancel) is { } used)
        {
            throw new PlateRoomException($"Remnant {used} of this layout is used by another sheet: the layout can no longer be undone.");
        }

        await SheetReturn.PutBackAsync(db, layout.Sheets, "its layout was undone", cancel);
        var plates = layout.Sheets.SelectMany(s => s.Placements).Select(p => p.PlateId).ToList();
        foreach (var ticket in await db.Tickets.Where(t => t.State == TicketState.Ready && db.Plates.Where(p => plates.Contains(p.Id)).Select(p => p.TicketId).Contains(t.Id)).ToListAsync(cancel))
        {
            ticket.State = TicketState.WaitingForLayout;
        }

        foreach (var sheet in layout.Sheets)
        {
            sheet.State = SheetState.Cancelled;
            sheet.CurrentStation = null;
            sheet.Placements.Clear();
        }
    }

    private static async Task SaveAsync(PlateRoomDb db, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("Somebody else has just taken sheets of the same stock: look at the layout again, nothing was released.");
        }
    }

    private static IQueryable<Plate> Waiting(PlateRoomDb db) => db.Plates.Where(p =>
        (p.Ticket!.State == TicketState.WaitingForLayout || p.Ticket.State == TicketState.InWork || p.Ticket.State == TicketState.Ready)
        && !p.OutOfSet && !db.Placements.Any(l => l.PlateId == p.Id));
}
