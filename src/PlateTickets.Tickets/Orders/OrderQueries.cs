using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Orders;

/// <summary>A ticket with all that its page shows.</summary>
public sealed record TicketView(Order Order, IReadOnlyList<Sheet> Sheets)
{
    public Ticket Ticket => Order.Ticket!;

    /// <summary>The planned finish of the last sheet; null before the first plan or without sheets.</summary>
    public DateTime? PlannedDoneUtc =>
        Sheets.Count > 0 && Unlaid == 0 && Sheets.All(s => Last(s)?.PlannedFinishUtc is not null) ? Sheets.Max(s => Last(s)!.PlannedFinishUtc) : null;

    /// <summary>Its plates that have no sheet yet.</summary>
    public int Unlaid => Plates.Count(p => !Sheets.Any(s => s.Placements.Exists(l => l.PlateId == p.Id)));

    /// <summary>The plates of the set: those that were spoilt do not count.</summary>
    public IEnumerable<Plate> Plates => Ticket.Plates.Where(p => !p.OutOfSet);

    /// <summary>The earliest due-by of the sheets' last stages.</summary>
    public DateTime? LastDueByUtc => Sheets.Count == 0 ? null : Sheets.Min(s => Last(s)?.DueByUtc);

    private static Stage? Last(Sheet sheet) => sheet.Stages.MaxBy(s => s.Station);
}

/// <summary>Sheets of a ticket that are at the same place: on hold, running or waiting for a station.</summary>
public sealed record SheetPlace(SheetState State, Station? Station, int Sheets);

/// <summary>One line of the order list.</summary>
public sealed record OrderLine(
    int Id, string Number, string Customer, string Title, string Press, string Material, DateTime DueUtc, TicketState State, int Plates, int Sheets,
    int SheetsDone, DateTime? PlannedDoneUtc, DateTime? LastDueByUtc, DateTime? DoneUtc, int Remakes = 0,
    int RepeatUm = 0, int Copies = 1)
{
    /// <summary>Where its sheets are that are not done, in the order of the stations, the last first.</summary>
    public IReadOnlyList<SheetPlace> Places { get; init; } = [];
}

/// <summary>What the order pages ask for.</summary>
public sealed class OrderQueries(IDbContextFactory<PlateRoomDb> databases)
{
    private static readonly TicketState[] Ended = [TicketState.Done, TicketState.Cancelled];
    private static readonly TicketState[] Open = [.. Enum.GetValues<TicketState>().Except(Ended)];

    public async Task<TicketView?> FindAsync(string number, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var order = await db.Orders.AsNoTracking().AsSplitQuery()
            .Include(o => o.Customer).Include(o => o.Press).Include(o => o.Material)
            .Include(o => o.Ticket!.Separations.OrderBy(s => s.Id))
            .Include(o => o.Ticket!.Plates.OrderBy(p => p.Id))
            .SingleOrDefaultAsync(o => o.Number == number, cancel);
        if (order is null)
        {
            return null;
        }

        var sheets = await SheetsOf.Set(db, order.Id).AsNoTracking().AsSplitQuery()
            .Include(s => s.Material).Include(s => s.RecipeRevision)
            .Include(s => s.Stages.OrderBy(t => t.Id)).ThenInclude(t => t.Equipment)
            .Include(s => s.Placements.OrderBy(p => p.Mark)).ThenInclude(p => p.Plate!.Separation)
            .OrderBy(s => s.Id)
            .ToListAsync(cancel);
        return new TicketView(order, sheets);
    }

    /// <summary>Tickets that were made from files with these contents, the newest three.</summary>
    public async Task<List<EarlierJob>> EarlierAsync(IReadOnlyCollection<string> sha256, CancellationToken cancel = default)
    {
        if (sha256.Count == 0)
        {
            return [];
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Orders.AsNoTracking()
            .Where(o => db.Separations.Where(s => sha256.Contains(s.Sha256)).Select(s => s.TicketId).Contains(o.Id))
            .OrderByDescending(o => o.EnteredUtc).Take(3)
            .Select(o => new EarlierJob(
                o.Number, o.CustomerId, o.Customer!.Name, o.Title, o.PressId, o.RepeatUm, o.MaterialId, o.Copies, o.EnteredUtc,
                o.Ticket!.Separations.Count(s => sha256.Contains(s.Sha256))))
            .ToListAsync(cancel);
    }

    /// <summary>The preview of a separation as PNG with the hash of its image, or null.</summary>
    public async Task<(byte[] Png, string ImageHash)?> PreviewAsync(int separationId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var found = await db.SeparationPreviews.Where(p => p.SeparationId == separationId).Select(p => new { p.Png, p.Separation!.ImageHash }).FirstOrDefaultAsync(cancel);
        return found is null ? null : (found.Png, found.ImageHash);
    }

    /// <summary>The plates of tickets entered in a time, or of one ticket, with their ink; by ticket and plate.</summary>
    /// <param name="fromUtc">Included.</param>
    /// <param name="toUtc">Not included.</param>
    /// <param name="number">Only this ticket; null for all.</param>
    /// <param name="most">At most so many lines.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task<List<InkLine>> InkAsync(DateTime fromUtc, DateTime toUtc, string? number, int most, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.Plates.AsNoTracking()
            .Where(p => !p.OutOfSet).Where(p => number == null ? p.Ticket!.Order!.EnteredUtc >= fromUtc && p.Ticket.Order.EnteredUtc < toUtc : p.Ticket!.Order!.Number == number)
            .OrderBy(p => p.Ticket!.Order!.EnteredUtc).ThenBy(p => p.TicketId).ThenBy(p => p.Id).Take(most)
            .Select(p => new InkLine(
                p.Ticket!.Order!.Number, p.Ticket.Order.Customer!.Name, p.Ticket.Order.Title, p.Ticket.Order.EnteredUtc, p.Separation!.Colour, p.Copy,
                p.WidthUm, p.LengthUm, p.Separation.Coverage, p.Separation.FileName))
            .ToListAsync(cancel);
    }

    /// <summary>The open orders by due time, or the done ones, newest first.</summary>
    public async Task<(List<OrderLine> Lines, int Total)> ListAsync(bool done, int skip, int take, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        // By the few tickets that are open, or by those that are not: never through all orders.
        var states = done ? Ended : Open;
        var tickets = db.Tickets.AsNoTracking().Where(t => states.Contains(t.State));
        var total = await tickets.CountAsync(cancel);
        var ordered = done ? tickets.OrderByDescending(t => t.DoneUtc).Select(t => t.Order!) : tickets.Select(t => t.Order!).OrderBy(o => o.DueUtc);
        return (await LinesAsync(db, ordered.Skip(skip).Take(take), cancel), total);
    }

    /// <summary>These orders, newest first.</summary>
    public async Task<List<OrderLine>> ListAsync(IReadOnlyCollection<int> ids, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await LinesAsync(db, db.Orders.AsNoTracking().Where(o => ids.Contains(o.Id)).OrderByDescending(o => o.Id), cancel);
    }

    private static async Task<List<OrderLine>> LinesAsync(PlateRoomDb db, IQueryable<Order> orders, CancellationToken cancel)
    {
        var lines = await orders
            .Select(o => new
            {
                o.Id,
                o.Number,
                Customer = o.Customer!.Name,
                o.Title,
                Press = o.Press!.Name,
                Material = o.Material!.Name,
                o.DueUtc,
                o.RepeatUm,
                o.Copies,
                o.Ticket!.State,
                o.Ticket.DoneUtc,
                Plates = o.Ticket.Plates.Count(p => !p.OutOfSet),
                Remakes = o.Ticket.Plates.Count(p => !p.OutOfSet && p.RemakeOfPlateId != null && !db.Placements.Any(l => l.PlateId == p.Id && l.Sheet!.State == SheetState.Done)),
                Unlaid = o.Ticket.Plates.Count(p => !p.OutOfSet && !db.Placements.Any(l => l.PlateId == p.Id)),
            })
            .ToListAsync(cancel);
        var sheets = await SheetsOfAsync(db, [.. lines.Select(l => l.Id)], cancel);
        return
        [
            .. lines.Select(o => new OrderLine(
                o.Id, o.Number, o.Customer, o.Title, o.Press, o.Material, o.DueUtc, o.State, o.Plates, sheets[o.Id].Count(),
                sheets[o.Id].Count(s => s.Done),
                o.Unlaid == 0 && sheets[o.Id].Any() && sheets[o.Id].All(s => s.PlannedDone is not null) ? sheets[o.Id].Max(s => s.PlannedDone) : null,
                sheets[o.Id].Min(s => s.LastDueBy), o.DoneUtc, o.Remakes, o.RepeatUm, o.Copies)
            {
                Places =
                [
                    .. sheets[o.Id].Where(s => !s.Done && s.State != SheetState.Cancelled).CountBy(s => (s.State, s.Station))
                        .OrderByDescending(p => p.Key.Station).ThenBy(p => p.Key.State).Select(p => new SheetPlace(p.Key.State, p.Key.Station, p.Value)),
                ],
            }),
        ];
    }

    /// <summary>The sheets of the listed tickets: done or not, where, planned finish and due-by of the last stage.</summary>
    private static async Task<ILookup<int, (bool Done, SheetState State, Station? Station, DateTime? PlannedDone, DateTime? LastDueBy)>> SheetsOfAsync(
        PlateRoomDb db, List<int> tickets, CancellationToken cancel)
    {
        var carries = await db.Placements.Where(p => tickets.Contains(p.Plate!.TicketId) && !p.Plate.OutOfSet)
            .Select(p => new { p.Plate!.TicketId, p.SheetId }).Distinct().ToListAsync(cancel);
        var ids = carries.Select(c => c.SheetId).Distinct().ToList();
        var sheets = await db.Sheets.Where(s => ids.Contains(s.Id))
            .Select(s => new { s.Id, s.State, s.CurrentStation, PlannedDone = s.Stages.Max(t => t.PlannedFinishUtc), LastDueBy = s.Stages.Max(t => t.DueByUtc) })
            .ToDictionaryAsync(s => s.Id, cancel);
        return carries.ToLookup(c => c.TicketId, c => (sheets[c.SheetId].State == SheetState.Done, sheets[c.SheetId].State, sheets[c.SheetId].CurrentStation, sheets[c.SheetId].PlannedDone, sheets[c.SheetId].LastDueBy));
    }
}
