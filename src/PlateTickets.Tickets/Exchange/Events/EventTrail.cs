using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Exchange.Events;

/// <summary>
/// Reads from a context what is about to be saved and happened to tickets: it becomes <see cref="TicketEvent"/>s in the same transaction, wherever in the
/// program the change is made.
/// </summary>
internal sealed class EventTrail
{
    private readonly List<(Ticket Ticket, TicketEvent Event)> _ofTickets = [];
    private readonly List<(Remake Remake, TicketEvent Event)> _ofPlates = [];
    private readonly List<TicketEvent> _ofSheets = [];

    /// <summary>Null when nothing happened to a ticket. Changes must be detected already.</summary>
    public static EventTrail? Of(PlateRoomDb db)
    {
        EventTrail? trail = null;
        foreach (var entry in db.ChangeTracker.Entries())
        {
            if (entry.State is EntityState.Added or EntityState.Modified)
            {
                trail = Add(trail, db, entry);
            }
        }

        return trail;
    }

    /// <summary>Call after the changes were saved, in their transaction: only then has a new record its id. False when nothing is to be written.</summary>
    public async Task<bool> WriteAsync(PlateRoomDb db, CancellationToken cancel)
    {
        var events = new List<TicketEvent>();
        foreach (var (ticket, happened) in _ofTickets)
        {
            happened.TicketId = ticket.Id;
            events.Add(happened);
        }

        foreach (var (remake, happened) in _ofPlates)
        {
            happened.TicketId = remake.TicketId;
            events.Add(happened);
        }

        if (_ofSheets.Count > 0)
        {
            events.AddRange(await OfSheetsAsync(db, cancel));
        }

        db.TicketEvents.AddRange(events);
        return events.Count > 0;
    }

    private static EventTrail? Add(EventTrail? trail, PlateRoomDb db, EntityEntry entry)
    {
        var now = db.Clock.GetUtcNow().UtcDateTime;
        var who = db.WhoActsOn(entry.Entity);
        switch (entry.Entity)
        {
            case Order { Ticket: { } ticket } order when entry.State == EntityState.Added:
                (trail ??= new())._ofTickets.Add((ticket, New(who, TicketEventKind.Entered, now, order.DueUtc)));
                break;
            case Order order when Moved(entry, nameof(Order.DueUtc)) || Moved(entry, nameof(Order.Copies)):
                (trail ??= new())._ofTickets.Add((order.Ticket ?? new Ticket { Id = order.Id }, New(who, TicketEventKind.Changed, now, order.DueUtc)));
                break;
            case Ticket { State: TicketState.Done } ticket when Moved(entry, nameof(Ticket.State)):
                (trail ??= new())._ofTickets.Add((ticket, New(who, TicketEventKind.Finished, ticket.DoneUtc ?? now)));
                break;
            case Ticket { State: TicketState.Cancelled } ticket when Moved(entry, nameof(Ticket.State)):
                (trail ??= new())._ofTickets.Add((ticket, New(who, TicketEventKind.Cancelled, now, why: ticket.CancelledBecause)));
                break;
            case Remake remake when entry.State == EntityState.Added:
                (trail ??= new())._ofPlates.Add((remake, New(who, TicketEventKind.PlateRemade, remake.AtUtc, sheetId: remake.SheetId, station: remake.FoundAt, why: $"{remake.Defect}")));
                break;
            case Sheet { State: SheetState.OnHold } sheet when Moved(entry, nameof(Sheet.State)):
                (trail ??= new())._ofSheets.Add(New(who, TicketEventKind.Held, now, sheetId: sheet.Id, why: sheet.HoldReason));
                break;
            case Sheet { State: SheetState.Waiting or SheetState.Running } sheet when WasOnHold(entry):
                (trail ??= new())._ofSheets.Add(New(who, TicketEventKind.GoingOn, now, sheetId: sheet.Id));
                break;
            case Stage { State: StageState.Running } stage when Moved(entry, nameof(Stage.State)):
                (trail ??= new())._ofSheets.Add(New(who, TicketEventKind.StageStarted, stage.StartedUtc ?? now, sheetId: stage.SheetId, station: stage.Station, by: stage.StartedBy));
                break;
            case Stage { State: StageState.Done } stage when Moved(entry, nameof(Stage.State)):
                (trail ??= new())._ofSheets.Add(New(who, TicketEventKind.StageDone, stage.FinishedUtc ?? now, sheetId: stage.SheetId, station: stage.Station, by: stage.FinishedBy, why: stage.SkippedBecause));
                break;
        }

        return trail;
    }

    // What happens to a sheet happens to all tickets with plates on it. Its way through the stations is kept only for tickets that another program
    // follows: for all others the stages say the same, and at ten stages a sheet the room would write everything twice.
    private async Task<IEnumerable<TicketEvent>> OfSheetsAsync(PlateRoomDb db, CancellationToken cancel)
    {
        var sheets = _ofSheets.Select(e => e.SheetId!.Value).Distinct().ToList();
        var tickets = (await db.Placements.Where(p => sheets.Contains(p.SheetId) && !p.Plate!.OutOfSet)
            .Select(p => new { p.SheetId, p.Plate!.TicketId, Followed = db.ReceivedDocuments.Any(d => d.OrderId == p.Plate.TicketId) })
            .Distinct().ToListAsync(cancel)).ToLookup(p => p.SheetId);
        return _ofSheets
            .SelectMany(e => tickets[e.SheetId!.Value].Where(t => t.Followed || e.Kind is TicketEventKind.Held or TicketEventKind.GoingOn).Select(t => For(e, t.TicketId)))
            // Three sheets of a ticket put on hold at once are one hold of the ticket.
            .DistinctBy(e => e.Kind is TicketEventKind.Held or TicketEventKind.GoingOn ? (e.TicketId, e.Kind, 0, e.Why) : (e.TicketId, e.Kind, e.SheetId!.Value, $"{e.Station}"));
    }

    private static TicketEvent For(TicketEvent of, int ticketId) => new()
    {
        TicketId = ticketId,
        Kind = of.Kind,
        AtUtc = of.AtUtc,
        By = of.By,
        SheetId = of.SheetId,
        Station = of.Station,
        ForUtc = of.ForUtc,
        Why = of.Why,
    };

    private static bool Moved(EntityEntry entry, string property) =>
        entry.State == EntityState.Modified && entry.Property(property) is { IsModified: true } moved && !Equals(moved.OriginalValue, moved.CurrentValue);

    private static bool WasOnHold(EntityEntry entry) => Moved(entry, nameof(Sheet.State)) && entry.Property(nameof(Sheet.State)).OriginalValue is SheetState.OnHold;

    private static TicketEvent New(
        string who, TicketEventKind kind, DateTime atUtc, DateTime? forUtc = null, int? sheetId = null, Station? station = null, string? by = null, string why = "") => new()
        {
            Kind = kind,
            AtUtc = atUtc,
            By = string.IsNullOrEmpty(by) ? who : by,
            ForUtc = forUtc,
            SheetId = sheetId,
            Station = station,
            Why = why,
        };
}
