using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Tickets.Exchange.Events;

/// <summary>
/// Compares what the newest simulated plan says of each open ticket with what was said last, and writes an event where it is another: promised, at risk, late,
/// on time again. Run it where the plan is made, after each simulation.
/// </summary>
public sealed class OutlookWatch(IDbContextFactory<PlateRoomDb> databases, PlanBook book, TimeProvider clock)
{
    /// <summary>A risk is over below half of the chance from which on it was one, so that a chance near the limit does not come and go.</summary>
    public const double OverBelow = LatenessRules.RiskFrom / 2;

    private static readonly TicketEventKind[] Said =
        [TicketEventKind.Promised, TicketEventKind.AtRisk, TicketEventKind.Late, TicketEventKind.OnTimeAgain, TicketEventKind.Changed];

    private static readonly TicketState[] Closed = [TicketState.Done, TicketState.Cancelled];

    /// <returns>How many events were written.</returns>
    public async Task<int> LookAsync(CancellationToken cancel = default)
    {
        if (book.Now is not { Outlooks.Count: > 0 } now)
        {
            return 0;
        }

        var due = now.Live.Request.Tickets.ToDictionary(t => t.Id, t => t.DueUtc);
        var ids = now.Outlooks.Keys.ToList();
        var at = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        // What was said stands in the database: another node, or the same after a new start, goes on from there.
        var open = await db.Tickets.Where(t => ids.Contains(t.Id) && !Closed.Contains(t.State)).Select(t => t.Id).ToListAsync(cancel);
        var said = (await db.TicketEvents.AsNoTracking().Where(e => open.Contains(e.TicketId) && Said.Contains(e.Kind))
            .Select(e => new { e.Id, e.TicketId, e.Kind }).ToListAsync(cancel)).ToLookup(e => e.TicketId);
        var written = 0;
        foreach (var id in open)
        {
            var outlook = now.Outlooks[id];
            var before = said[id].OrderBy(e => e.Id).Select(e => e.Kind).ToList();
            var promised = before.LastIndexOf(TicketEventKind.Promised) > before.LastIndexOf(TicketEventKind.Changed);
            if (!promised)
            {
                Write(TicketEventKind.Promised);
            }

            var last = before.FindLast(k => k is TicketEventKind.AtRisk or TicketEventKind.Late or TicketEventKind.OnTimeAgain);
            var late = outlook.PlannedUtc > due[id] || due[id] < at;
            var next = late ? TicketEventKind.Late
                : outlook.LateChance >= LatenessRules.RiskFrom ? TicketEventKind.AtRisk
                : last == TicketEventKind.AtRisk && outlook.LateChance >= OverBelow ? TicketEventKind.AtRisk
                : TicketEventKind.OnTimeAgain;
            if (next != last && !(next == TicketEventKind.OnTimeAgain && last == default))
            {
                Write(next);
            }

            void Write(TicketEventKind kind)
            {
                written++;
                db.TicketEvents.Add(new TicketEvent { TicketId = id, Kind = kind, AtUtc = at, By = "Plan", ForUtc = PromiseDesk.Rounded(outlook.Finish.NinetyFive) });
            }
        }

        if (written > 0)
        {
            await db.SaveChangesAsync(cancel);
        }

        return written;
    }
}
