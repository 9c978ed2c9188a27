using Microsoft.EntityFrameworkCore;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Demo;

/// <summary>
/// Plays the demo room's last days through the program's own order entry, plan and scans, so that its past is
/// one that the program could have had.
/// </summary>
internal sealed class DemoDays
{
    private const int Orders = 40;
    private static readonly string[] Operators = ["Ada", "Bruno", "Chika", "Dario"];

    private readonly IDbContextFactory<PlateRoomDb> _databases;
    private readonly DateTime _nowUtc;
    private readonly DemoClock _clock = new();
    private readonly Random _hands = new(7);
    private readonly RoomCatalog _rooms;
    private readonly OrderEntry _entry;
    private readonly PlanKeeper _plans;
    private readonly ScanDesk _desk;

    public DemoDays(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var events = new RoomEvents();
        _databases = databases;
        _nowUtc = now.AddTicks(-(now.Ticks % TimeSpan.TicksPerSecond));
        _clock.NowUtc = _nowUtc;
        _rooms = new RoomCatalog(databases, _clock);
        _entry = new OrderEntry(databases, _rooms, events, _clock);
        _plans = new PlanKeeper(databases, _rooms, new StageSpreads(databases, _rooms, _clock), new PlanBook(), events, _clock);
        _desk = new ScanDesk(databases, _rooms, events, _clock);
    }

    public async Task PlayAsync(CancellationToken cancel)
    {
        List<DemoOrder> orders;
        await using (var db = await _databases.CreateDbContextAsync(cancel))
        {
            var customers = await db.Customers.AsNoTracking().OrderBy(c => c.Id).ToListAsync(cancel);
            orders = DemoOrders.Make(await _rooms.GetAsync(cancel), customers, Orders, _nowUtc, seed: 7);
        }

        foreach (var (order, index) in orders.Select((o, i) => (o, i)))
        {
            await PlayScansAsync(order.EnteredUtc, cancel);
            _clock.NowUtc = order.EnteredUtc;
            var waitsForFiles = index is 31 or 36 or 39;
            var together = index is 33 or 34 or 35 or 37 or 38;
            await _entry.EnterAsync(order.Order, waitsForFiles ? [] : order.Separations, "Demo CSR", together: together, cancel: cancel);
            await _plans.ReplanAsync(cancel);
        }

        await PlayScansAsync(_nowUtc, cancel);
        _clock.NowUtc = _nowUtc;
        await HoldAndCancelAsync(cancel);
        await _plans.ReplanAsync(cancel);
        _plans.Dispose();
        _rooms.Dispose();
    }

    /// <summary>Does what the plan says, up to an instant: starts and finishes in the order of their times.</summary>
    private async Task PlayScansAsync(DateTime untilUtc, CancellationToken cancel)
    {
        var room = await _rooms.GetAsync(cancel);
        await using var db = await _databases.CreateDbContextAsync(cancel);
        var stages = await db.Stages.AsNoTracking()
            .Where(s => s.State != StageState.Done && s.PlannedStartUtc != null)
            .Select(s => new { s.Sheet!.Number, s.State, Equipment = s.EquipmentId!.Value, Start = s.PlannedStartUtc!.Value, Finish = s.PlannedFinishUtc!.Value, Rest = s.RestAfterSeconds })
            .ToListAsync(cancel);
        var starts = stages.Where(s => s.State == StageState.Waiting).Select(s => (At: s.Start, Order: 1, s.Number, s.Equipment));
        var finishes = stages.Select(s => (At: s.Finish + Dawdle(s.Finish, s.Finish - s.Start, stages
            .Where(o => o != s && (o.Equipment == s.Equipment || o.Number == s.Number))
            .Select(o => o.Number == s.Number ? o.Start.AddSeconds(-s.Rest) : o.Start).Append(untilUtc)), Order: 0, s.Number, s.Equipment));
        foreach (var (at, order, number, equipment) in starts.Concat(finishes).Where(e => e.At < untilUtc).OrderBy(e => e.At).ThenBy(e => e.Order))
        {
            _clock.NowUtc = at;
            var by = Operators[(room.Equipment.Count + equipment) % Operators.Length];
            var action = order == 1 ? ScanAction.Start : ScanAction.Finish;
            var reply = await _desk.RecordAsync(new ScanRequest(Guid.NewGuid(), number, room.EquipmentById(equipment)!.Slug, action, by) { Ticked = CheckLists.All }, cancel);
            if (!reply.Accepted)
            {
                throw new InvalidOperationException($"The demo's past does not hold: {reply.Sentence}");
            }
        }
    }

    // Nobody works to the second: where nothing waits for it, a stage ends a little later than planned.
    private TimeSpan Dawdle(DateTime finish, TimeSpan length, IEnumerable<DateTime> next)
    {
        var left = next.Where(n => n >= finish).Select(n => n - finish).DefaultIfEmpty(TimeSpan.Zero).Min();
        var late = length * (0.25 * Math.Pow(_hands.NextDouble(), 2));
        return TimeSpan.FromSeconds(Math.Floor((late < left ? late : left).TotalSeconds));
    }

    private async Task HoldAndCancelAsync(CancellationToken cancel)
    {
        await using var db = await _databases.CreateDbContextAsync(cancel);
        db.ActingAs = "Demo lead";
        db.Clock = _clock;
        var waiting = await db.Sheets.Where(s => s.State == SheetState.Waiting).OrderByDescending(s => s.Id).FirstAsync(cancel);
        waiting.State = SheetState.OnHold;
        waiting.HoldReason = "customer checks the green separation";
        var cancelled = await db.Orders.Include(o => o.Ticket)
            .Where(o => o.Ticket!.State == TicketState.Ready).OrderByDescending(o => o.Id).Skip(2).FirstOrDefaultAsync(cancel);
        if (cancelled is not null)
        {
            cancelled.Ticket!.State = TicketState.Cancelled;
            foreach (var sheet in await db.Sheets.Where(s => s.Placements.Any(p => p.Plate!.TicketId == cancelled.Id)).ToListAsync(cancel))
            {
                sheet.State = SheetState.Cancelled;
                sheet.CurrentStation = null;
            }
        }

        await db.SaveChangesAsync(cancel);
    }
}
