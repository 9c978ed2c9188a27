using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Sheets;

/// <summary>A sheet with its tickets: what a station page and a traveler need.</summary>
/// <param name="Sheet">With material, recipe revision, stages, equipment, placements, plates and separations.</param>
/// <param name="Orders">The orders of its tickets, by due time, with customer, press and ticket.</param>
/// <param name="SetPosition">Of each order with several sheets: which sheet this is, and of how many.</param>
public sealed record SheetView(Sheet Sheet, IReadOnlyList<Order> Orders, IReadOnlyDictionary<int, (int Position, int Count)> SetPosition)
{
    /// <summary>The remnant that is cut off it before it is exposed; null when there is none.</summary>
    public Remnant? CutOff { get; init; }

    /// <summary>What was read of it, in order.</summary>
    public IReadOnlyList<StageReading> Readings { get; init; } = [];

    /// <summary>What leads decided about its stages, in order.</summary>
    public IReadOnlyList<StageDecision> Decisions { get; init; } = [];

    /// <summary>When its first ticket is due, cancelled ones left out while there are others; when it was made for a sheet that carries none.</summary>
    public DateTime DueUtc => Orders.OrderBy(o => o.Ticket!.State == TicketState.Cancelled).ThenBy(o => o.DueUtc).FirstOrDefault()?.DueUtc ?? Sheet.MadeUtc;
}

public sealed class SheetQueries(IDbContextFactory<PlateRoomDb> databases)
{
    public async Task<SheetView?> FindAsync(string number, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return (await ViewsAsync(db, db.Sheets.Where(s => s.Number == number), cancel)).SingleOrDefault();
    }

    /// <summary>The sheets of a layout that was not undone, in the order in which they were made.</summary>
    public async Task<IReadOnlyList<SheetView>> OfLayoutAsync(int layoutId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var views = await ViewsAsync(db, db.Sheets.Where(s => s.LayoutId == layoutId && s.State != SheetState.Cancelled), cancel);
        return [.. views.Where(v => v.Orders.Count > 0)];
    }

    // As many statements for all sheets as for one.
    private static async Task<List<SheetView>> ViewsAsync(PlateRoomDb db, IQueryable<Sheet> which, CancellationToken cancel)
    {
        var sheets = await which.AsNoTracking().AsSplitQuery().OrderBy(s => s.Id)
            .Include(s => s.Material).Include(s => s.RecipeRevision)
            .Include(s => s.Stages.OrderBy(t => t.Id)).ThenInclude(t => t.Equipment)
            .Include(s => s.Placements.OrderBy(p => p.Mark)).ThenInclude(p => p.Plate!.Separation)
            .ToListAsync(cancel);
        if (sheets.Count == 0)
        {
            return [];
        }

        List<int> ids = [.. sheets.Select(s => s.Id)];
        List<int> tickets = [.. sheets.SelectMany(TicketsOf).Distinct()];
        var orders = await db.Orders.AsNoTracking().Include(o => o.Customer).Include(o => o.Press).Include(o => o.Ticket)
            .Where(o => tickets.Contains(o.Id)).OrderBy(o => o.DueUtc).ToListAsync(cancel);
        var siblings = (await db.Placements.Where(p => tickets.Contains(p.Plate!.TicketId) && (ids.Contains(p.SheetId) || (!p.Plate.OutOfSet && p.Sheet!.State != SheetState.Cancelled)))
            .Select(p => new { p.Plate!.TicketId, p.SheetId, InSet = !p.Plate.OutOfSet && p.Sheet!.State != SheetState.Cancelled }).Distinct().ToListAsync(cancel)).ToLookup(s => s.TicketId);
        var cutOff = (await db.Remnants.AsNoTracking().Where(r => ids.Contains(r.FromSheetId)).OrderBy(r => r.Id).ToListAsync(cancel)).ToLookup(r => r.FromSheetId);
        var readings = (await db.StageReadings.AsNoTracking().Where(r => ids.Contains(r.SheetId)).OrderBy(r => r.Id).ToListAsync(cancel)).ToLookup(r => r.SheetId);
        var decisions = (await db.StageDecisions.AsNoTracking().Where(d => ids.Contains(d.SheetId)).OrderBy(d => d.Id).ToListAsync(cancel)).ToLookup(d => d.SheetId);
        return [.. sheets.Select(View)];

        SheetView View(Sheet sheet)
        {
            var own = TicketsOf(sheet).ToHashSet();
            return new SheetView(sheet, [.. orders.Where(o => own.Contains(o.Id))], own.ToDictionary(t => t, t => Position(t, sheet.Id)))
            {
                CutOff = cutOff[sheet.Id].FirstOrDefault(),
                Readings = [.. readings[sheet.Id]],
                Decisions = [.. decisions[sheet.Id]],
            };
        }

        // A sheet that is out of the set itself is counted with it for its own view.
        (int, int) Position(int ticket, int sheetId)
        {
            List<int> set = [.. siblings[ticket].Where(s => s.InSet || s.SheetId == sheetId).Select(s => s.SheetId).Distinct()];
            return (set.Count(s => s <= sheetId), set.Count);
        }
    }

    private static IEnumerable<int> TicketsOf(Sheet sheet) => sheet.Placements.Select(p => p.Plate!.TicketId);

    /// <summary>Counts a print of the traveler and says how many there were before.</summary>
    public async Task<int> CountPrintAsync(string number, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        if (await db.Sheets.Where(s => s.Number == number).ExecuteUpdateAsync(u => u.SetProperty(s => s.Prints, s => s.Prints + 1), cancel) == 0)
        {
            return -1;
        }

        var prints = await db.Sheets.Where(s => s.Number == number).Select(s => s.Prints).SingleAsync(cancel);
        db.Note(nameof(Sheet), number, "printed the traveler", $"print {prints}");
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        return prints - 1;
    }
}
