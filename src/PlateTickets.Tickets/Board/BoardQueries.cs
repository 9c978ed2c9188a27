using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Tickets.Board;

internal static class BoardQueries
{
    /// <summary>Every open sheet and those done since <paramref name="doneSinceUtc"/>.</summary>
    public static Task<List<BoardSheet>> OpenAsync(PlateRoomDb db, DateTime doneSinceUtc, CancellationToken cancel) =>
        ReadAsync(
            db,
            db.Sheets.Where(s => s.State == SheetState.Waiting || s.State == SheetState.Running || s.State == SheetState.OnHold
                || (s.State == SheetState.Done && s.DoneUtc >= doneSinceUtc)),
            cancel);

    public static Task<List<BoardSheet>> ByIdsAsync(PlateRoomDb db, IReadOnlyCollection<int> ids, CancellationToken cancel) =>
        ReadAsync(db, db.Sheets.Where(s => ids.Contains(s.Id)), cancel);

    // Plain queries and joins in memory: SQLite has no APPLY, the sheets of a room are few, and an Include makes delegates anew for every row that it reads.
    private static async Task<List<BoardSheet>> ReadAsync(PlateRoomDb db, IQueryable<Sheet> sheets, CancellationToken cancel)
    {
        var rows = await sheets.AsNoTracking().OrderBy(s => s.Id).Select(s => new { Sheet = s, Material = s.Material!.Name }).ToListAsync(cancel);
        var stages = (await sheets.SelectMany(s => s.Stages).AsNoTracking().OrderBy(s => s.Id).ToListAsync(cancel)).ToLookup(s => s.SheetId);
        var plates = await sheets.SelectMany(s => s.Placements)
            .OrderBy(p => p.Mark)
            .Where(p => !p.Plate!.OutOfSet || p.Sheet!.State == SheetState.Cancelled)
            .Select(p => new { p.SheetId, p.Plate!.TicketId, p.Plate.Separation!.Colour })
            .ToListAsync(cancel);
        var ticketIds = plates.Select(p => p.TicketId).Distinct().ToList();
        var tickets = await db.Orders
            .Where(o => ticketIds.Contains(o.Id))
            .Select(o => new { o.Id, IsCancelled = o.Ticket!.State == TicketState.Cancelled, Ticket = new BoardTicket(o.Id, o.Number, o.Customer!.Name, o.Title, o.Press!.Name, o.DueUtc, o.Ticket!.Weight >= Ticket.RushWeight) })
            .ToDictionaryAsync(o => o.Id, cancel);
        var bySheet = plates.ToLookup(p => p.SheetId);
        return [.. rows.Select(r => Of(
            r.Sheet,
            r.Material,
            [.. stages[r.Sheet.Id]],
            [.. bySheet[r.Sheet.Id].Select(p => p.Colour).Distinct()],
            bySheet[r.Sheet.Id].Count(),
            Live([.. bySheet[r.Sheet.Id].Select(p => p.TicketId).Distinct().Select(t => (tickets[t].Ticket, tickets[t].IsCancelled))])))];
    }

    // A cancelled ticket drives nothing that others have plates on; what is its alone still has to come out of its machine.
    private static List<BoardTicket> Live(List<(BoardTicket Ticket, bool IsCancelled)> tickets) =>
        [.. tickets.Where(t => !t.IsCancelled || tickets.TrueForAll(o => o.IsCancelled)).Select(t => t.Ticket).OrderBy(t => t.DueUtc)];

    private static BoardSheet Of(Sheet sheet, string material, List<Stage> stages, IReadOnlyList<string> colours, int plates, IReadOnlyList<BoardTicket> tickets)
    {
        sheet.Stages.AddRange(stages);
        var current = stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station);
        var last = stages.MaxBy(s => s.Station);
        return new BoardSheet
        {
            Id = sheet.Id,
            Number = sheet.Number,
            State = sheet.State,
            Material = material,
            Tickets = tickets,
            Colours = colours,
            Plates = plates,
            RecipeRevisionId = sheet.RecipeRevisionId,
            Stage = current is null
                ? null
                : new BoardStage(
                    current.Id, current.Station, current.State, current.EquipmentId, current.PlannedStartUtc, current.PlannedFinishUtc,
                    current.DueByUtc, current.StartedUtc, current.LoadSeconds, current.RunSeconds, current.UnloadSeconds, current.RunIsAttended, current.Drawer),
            ReadyUtc = current is null ? null : PlanInput.Ready(sheet, DateTime.MinValue) is var ready && ready > DateTime.MinValue ? ready : null,
            Passes = [.. stages.OrderBy(s => s.Station).Select(PassOf)],
            PlannedDoneUtc = last?.PlannedFinishUtc,
            LastDueByUtc = last?.DueByUtc,
            DoneUtc = sheet.DoneUtc,
            HoldReason = sheet.HoldReason,
        };
    }

    private static BoardPass PassOf(Stage stage)
    {
        var start = stage.StartedUtc ?? stage.PlannedStartUtc;
        var finish = stage.FinishedUtc ?? stage.PlannedFinishUtc;
        var free = stage.OccupiesSeconds < stage.RunSeconds ? start?.AddSeconds(stage.LoadSeconds + stage.OccupiesSeconds) : finish;
        return new BoardPass(stage.Station, stage.State, stage.EquipmentId, start, finish, free < finish ? free : finish, stage.SkippedBecause.Length == 0);
    }
}
