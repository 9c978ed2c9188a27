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
        var sheet = await db.Sheets.AsNoTracking().AsSplitQuery()
            .Include(s => s.Material).Include(s => s.RecipeRevision)
            .Include(s => s.Stages.OrderBy(t => t.Id)).ThenInclude(t => t.Equipment)
            .Include(s => s.Placements.OrderBy(p => p.Mark)).ThenInclude(p => p.Plate!.Separation)
            .SingleOrDefaultAsync(s => s.Number == number, cancel);
        if (sheet is null)
        {
            return null;
        }

        var tickets = sheet.Placements.Select(p => p.Plate!.TicketId).Distinct().ToList();
        var orders = await db.Orders.AsNoTracking().Include(o => o.Customer).Include(o => o.Press).Include(o => o.Ticket)
            .Where(o => tickets.Contains(o.Id)).OrderBy(o => o.DueUtc).ToListAsync(cancel);
        var siblings = await db.Placements.Where(p => tickets.Contains(p.Plate!.TicketId) && (p.SheetId == sheet.Id || (!p.Plate.OutOfSet && p.Sheet!.State != SheetState.Cancelled)))
            .Select(p => new { p.Plate!.TicketId, p.SheetId }).Distinct().ToListAsync(cancel);
        var positions = siblings.GroupBy(s => s.TicketId).ToDictionary(
            g => g.Key, g => (g.Count(s => s.SheetId <= sheet.Id), g.Count()));
        var cutOff = await db.Remnants.AsNoTracking().FirstOrDefaultAsync(r => r.FromSheetId == sheet.Id, cancel);
        return new SheetView(sheet, orders, positions)
        {
            CutOff = cutOff,
            Readings = await db.StageReadings.AsNoTracking().Where(r => r.SheetId == sheet.Id).OrderBy(r => r.Id).ToListAsync(cancel),
            Decisions = await db.StageDecisions.AsNoTracking().Where(d => d.SheetId == sheet.Id).OrderBy(d => d.Id).ToListAsync(cancel),
        };
    }

    /// <summary>The sheets of a layout that was not undone, in the order in which they were made.</summary>
    public async Task<IReadOnlyList<SheetView>> OfLayoutAsync(int layoutId, CancellationToken cancel = default)
    {
        List<string> numbers;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            numbers = await db.Sheets.Where(s => s.LayoutId == layoutId && s.State != SheetState.Cancelled).OrderBy(s => s.Id).Select(s => s.Number).ToListAsync(cancel);
        }

        var views = new List<SheetView>();
        foreach (var number in numbers)
        {
            if (await FindAsync(number, cancel) is { Orders.Count: > 0 } view)
            {
                views.Add(view);
            }
        }

        return views;
    }

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
