using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Exchange.Events;

namespace PlateTickets.Tickets.Exchange.Sending;

/// <summary>A delivery as a list shows it.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Kind">By which way.</param>
/// <param name="ReceiverId">The webhook, subscription or document; 0 for a mail.</param>
/// <param name="To">Address.</param>
/// <param name="Happened">What it tells of.</param>
/// <param name="AtUtc">When that happened.</param>
/// <param name="Ticket">The ticket's number.</param>
/// <param name="Title">The job.</param>
/// <param name="Attempts">Tries until now.</param>
/// <param name="NextUtc">Of a waiting one the next try, of another when it arrived or was given up.</param>
/// <param name="Answer">What the receiver said last.</param>
public sealed record DeliveryLine(
    long Id, DeliveryKind Kind, int ReceiverId, string To, TicketEventKind Happened, DateTime AtUtc, string Ticket, string Title, int Attempts, DateTime NextUtc, string Answer);

/// <summary>How many deliveries stand where; those that arrived are kept for a month.</summary>
public sealed record DeliveryCounts(int Waiting, int Dead, int Sent);

/// <summary>Lists deliveries, sends given up ones again, and tidies.</summary>
public sealed class DeliveryBook(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
{
    /// <summary>Longest list.</summary>
    public const int Most = 200;

    private const int AtOnce = 1000;

    private static readonly TimeSpan SentKept = TimeSpan.FromDays(30);
    private static readonly TimeSpan OldKept = TimeSpan.FromDays(400);
    private static readonly TicketEventKind[] OfStages = [TicketEventKind.StageStarted, TicketEventKind.StageDone];

    /// <summary>At most <see cref="Most"/>: of waiting ones those that are tried next, of others the newest.</summary>
    public async Task<IReadOnlyList<DeliveryLine>> ListAsync(DeliveryState state, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var of = db.Deliveries.Where(d => d.State == state);
        return await (state == DeliveryState.Waiting ? of.OrderBy(d => d.NextUtc).ThenBy(d => d.Id) : of.OrderByDescending(d => d.NextUtc).ThenByDescending(d => d.Id))
            .Take(Most)
            .Select(d => new DeliveryLine(
                d.Id, d.Kind, d.ReceiverId, d.To, d.Event!.Kind, d.Event.AtUtc, d.Event.Ticket!.Order!.Number, d.Event.Ticket.Order.Title, d.Attempts, d.NextUtc, d.Answer))
            .ToListAsync(cancel);
    }

    public async Task<DeliveryCounts> CountAsync(CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var counts = await db.Deliveries.GroupBy(d => d.State).Select(g => new { g.Key, Count = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Count, cancel);
        return new DeliveryCounts(
            counts.GetValueOrDefault(DeliveryState.Waiting), counts.GetValueOrDefault(DeliveryState.Dead), counts.GetValueOrDefault(DeliveryState.Sent));
    }

    /// <summary>A given up one is tried again from the start.</summary>
    /// <exception cref="PlateRoomException">It was not given up, or is not there any more.</exception>
    public async Task SendAgainAsync(long id, string by, CancellationToken cancel = default)
    {
        if (await SendAgainAsync(d => d.Where(x => x.Id == id), $"{id}", "sent a message again", by, cancel) == 0)
        {
            throw new PlateRoomException("This message does not stand among the given up ones any more; nothing was changed.");
        }
    }

    /// <summary>All that were given up for a receiver are tried again from the start.</summary>
    /// <returns>How many.</returns>
    public Task<int> SendAllAgainAsync(DeliveryKind kind, int receiverId, string to, string by, CancellationToken cancel = default) => SendAgainAsync(
        d => d.Where(x => x.Kind == kind && x.ReceiverId == receiverId && (kind != DeliveryKind.Mail || x.To == to)), $"to {to}", "sent all given up messages again", by, cancel);

    /// <summary>
    /// Deletes what is over: deliveries that arrived a month ago, given up ones and stages of tickets after 400 days. All else that happened to tickets stays.
    /// </summary>
    /// <returns>How many records.</returns>
    public async Task<int> TidyAsync(CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var (month, year) = (now - SentKept, now - OldKept);
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await DeleteAsync(db.Deliveries.Where(d => d.State == DeliveryState.Sent && d.NextUtc < month).Select(d => d.Id), ids => db.Deliveries.Where(d => ids.Contains(d.Id)).ExecuteDeleteAsync(cancel), cancel)
            + await DeleteAsync(db.Deliveries.Where(d => d.State == DeliveryState.Dead && d.NextUtc < year).Select(d => d.Id), ids => db.Deliveries.Where(d => ids.Contains(d.Id)).ExecuteDeleteAsync(cancel), cancel)
            + await DeleteAsync(
                db.TicketEvents.Where(e => e.Told && e.AtUtc < year && OfStages.Contains(e.Kind) && !db.Deliveries.Any(d => d.EventId == e.Id)).Select(e => e.Id),
                ids => db.TicketEvents.Where(e => ids.Contains(e.Id)).ExecuteDeleteAsync(cancel), cancel);
    }

    // In portions: nobody who scans waits for a long deletion.
    private static async Task<int> DeleteAsync(IQueryable<long> old, Func<IReadOnlyList<long>, Task<int>> delete, CancellationToken cancel)
    {
        for (var deleted = 0; ;)
        {
            var ids = await old.OrderBy(id => id).Take(AtOnce).ToListAsync(cancel);
            deleted += ids.Count == 0 ? 0 : await delete(ids);
            if (ids.Count < AtOnce)
            {
                return deleted;
            }
        }
    }

    private async Task<int> SendAgainAsync(Func<IQueryable<Delivery>, IQueryable<Delivery>> which, string key, string happened, string by, CancellationToken cancel)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var count = await which(db.Deliveries.Where(d => d.State == DeliveryState.Dead)).ExecuteUpdateAsync(
            set => set.SetProperty(d => d.State, DeliveryState.Waiting).SetProperty(d => d.Attempts, 0).SetProperty(d => d.NextUtc, now), cancel);
        if (count > 0)
        {
            db.Note("Delivery", key, happened, count == 1 ? null : $"{count} messages");
            await db.SaveChangesAsync(cancel);
            await transaction.CommitAsync(cancel);
        }

        return count;
    }
}
