using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Exchange.Status;

/// <summary>How far an order is, as its customer may see it: nothing of the room, of other orders or of who does what.</summary>
/// <param name="Title">Of the job.</param>
/// <param name="Number">Of the ticket.</param>
/// <param name="CustomerReference">What the customer calls the order.</param>
/// <param name="DueUtc">When it is due.</param>
/// <param name="State">Of the ticket.</param>
/// <param name="Station">Where its sheets are that are furthest behind; null before and after the work.</param>
/// <param name="IsOnHold">All that is left of it is on hold.</param>
/// <param name="PromiseUtc">The newest promise; null where there is none.</param>
/// <param name="IsLate">By the plan it comes after its due time.</param>
/// <param name="DoneUtc">When it was finished.</param>
/// <param name="SeparationsMissing">It waits for files of the customer.</param>
public sealed record OrderStatus(
    string Title, string Number, string CustomerReference, DateTime DueUtc, TicketState State, Station? Station, bool IsOnHold, DateTime? PromiseUtc, bool IsLate, DateTime? DoneUtc,
    bool SeparationsMissing);

/// <summary>Makes, shows and ends the addresses under which customers see their orders.</summary>
public sealed class StatusLinks(IDbContextFactory<PlateRoomDb> databases, ISecretKeeper secrets, TimeProvider clock)
{
    private static readonly TicketEventKind[] Told =
        [TicketEventKind.Promised, TicketEventKind.AtRisk, TicketEventKind.Late, TicketEventKind.OnTimeAgain, TicketEventKind.Cancelled];

    private static readonly TimeSpan UseKeptEvery = TimeSpan.FromHours(1);

    /// <summary>For so long after its ticket was finished or cancelled an address goes on working.</summary>
    public static readonly TimeSpan After = TimeSpan.FromDays(60);

    /// <summary>The token of the order's address: the one that works, or a new one.</summary>
    /// <exception cref="PlateRoomException">There is no such order.</exception>
    public async Task<string> MakeAsync(string number, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var order = await db.Orders.Where(o => o.Number == number).Select(o => (int?)o.Id).SingleOrDefaultAsync(cancel) ?? throw new PlateRoomException($"There is no order {TrackingNumber.ForPeople(number)}.");
        if (await db.StatusLinks.AsNoTracking().Where(l => l.OrderId == order && l.EndedUtc == null).OrderByDescending(l => l.Id).FirstOrDefaultAsync(cancel) is { } there && secrets.Read(there.Token) is { } token)
        {
            return token;
        }

        token = SecretText.New();
        db.StatusLinks.Add(new StatusLink { OrderId = order, Hash = SecretText.Hash(token), Token = secrets.Protect(token), MadeUtc = clock.GetUtcNow().UtcDateTime, MadeBy = by });
        await db.SaveChangesAsync(cancel);
        return token;
    }

    /// <summary>The token of an order's address that works; null when it has none.</summary>
    public async Task<string?> FindAsync(int orderId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var kept = await db.StatusLinks.Where(l => l.OrderId == orderId && l.EndedUtc == null).OrderByDescending(l => l.Id).Select(l => l.Token).FirstOrDefaultAsync(cancel);
        return kept is null ? null : secrets.Read(kept);
    }

    /// <summary>Ends the order's addresses: nobody sees anything under them any more.</summary>
    public async Task EndAsync(string number, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        foreach (var link in await db.StatusLinks.Where(l => l.Order!.Number == number && l.EndedUtc == null).ToListAsync(cancel))
        {
            link.EndedUtc = clock.GetUtcNow().UtcDateTime;
        }

        await db.SaveChangesAsync(cancel);
    }

    /// <summary>What the customer sees; null for a token that never was, has ended, or whose order is over for long.</summary>
    public async Task<OrderStatus?> ShowAsync(string token, CancellationToken cancel = default)
    {
        var hash = SecretText.Hash(token);
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var link = await db.StatusLinks.AsNoTracking().SingleOrDefaultAsync(l => l.Hash == hash && l.EndedUtc == null, cancel);
        if (link is null)
        {
            return null;
        }

        var order = await db.Orders.AsNoTracking().Include(o => o.Ticket).SingleAsync(o => o.Id == link.OrderId, cancel);
        var events = await db.TicketEvents.AsNoTracking().Where(e => e.TicketId == order.Id && Told.Contains(e.Kind)).OrderBy(e => e.Id).Select(e => new { e.Kind, e.AtUtc, e.ForUtc }).ToListAsync(cancel);
        var over = order.Ticket!.DoneUtc ?? events.LastOrDefault(e => e.Kind == TicketEventKind.Cancelled)?.AtUtc;
        if (over is { } ended && now - ended > After)
        {
            return null;
        }

        if (link.LastReadUtc is not { } last || now - last >= UseKeptEvery)
        {
            await db.StatusLinks.Where(l => l.Id == link.Id).ExecuteUpdateAsync(s => s.SetProperty(l => l.LastReadUtc, now), cancel);
        }

        var sheets = await SheetsOf.Set(db, order.Id).AsNoTracking().Select(s => new { s.State, s.CurrentStation }).ToListAsync(cancel);
        var open = sheets.Where(s => s.State is SheetState.Waiting or SheetState.Running or SheetState.OnHold).ToList();
        var spoken = events.Where(e => e.Kind != TicketEventKind.Cancelled).ToList();
        return new OrderStatus(
            order.Title, order.Number, order.CustomerReference, order.DueUtc, order.Ticket.State,
            order.Ticket.State == TicketState.InWork ? open.Min(s => s.CurrentStation) : null,
            open.Count > 0 && open.TrueForAll(s => s.State == SheetState.OnHold),
            order.Ticket.State is TicketState.Done or TicketState.Cancelled ? null : spoken.LastOrDefault()?.ForUtc,
            order.Ticket.State is not (TicketState.Done or TicketState.Cancelled) && (spoken.LastOrDefault(e => e.Kind != TicketEventKind.Promised)?.Kind == TicketEventKind.Late || order.DueUtc < now),
            order.Ticket.DoneUtc,
            order.Ticket.State == TicketState.WaitingForFiles);
    }
}
