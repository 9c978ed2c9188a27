using System.Collections.Concurrent;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging;
using PlateTickets.Tickets.Database;

namespace PlateTickets.Tickets.Exchange.Sending;

/// <summary>
/// Makes deliveries of what happened to tickets and sends them. What was sent is recorded after the receiver answered: when the program stops between the
/// two it is sent again under the same id, so every message arrives at least once. One node of a room runs it.
/// </summary>
public sealed class DeliveryDesk(
    IDbContextFactory<PlateRoomDb> databases, IEnumerable<IDeliverySender> senders, RoomMetrics metrics, TimeProvider clock, ILogger<DeliveryDesk> log)
{
    public const int EventsAtOnce = 200;
    public const int DeliveriesAtOnce = 50;

    private const int ReceiversAtOnce = 8;

    // One receiver with a long queue leaves room for the others.
    private const int MostToOne = 10;
    private const int LongestAnswer = 1000;

    // A receiver that failed is left alone for a while, so that one that does not answer holds up nobody else for long.
    private static readonly TimeSpan LongestRest = TimeSpan.FromMinutes(1);

    private static readonly Action<ILogger, string, long, Exception?> Failed = LoggerMessage.Define<string, long>(
        LogLevel.Error, new EventId(1, nameof(Failed)), "{Kind} delivery {Id} failed within the program; it is tried again");

    private readonly Dictionary<DeliveryKind, IDeliverySender> _senders = senders.ToDictionary(s => s.Kind);
    private readonly ConcurrentDictionary<Receiver, DateTime> _resting = new();

    private DateTime Now => clock.GetUtcNow().UtcDateTime;

    /// <summary>Makes the deliveries of all events that were not told yet.</summary>
    /// <returns>How many events were told.</returns>
    public async Task<int> FanOutAsync(CancellationToken cancel = default)
    {
        for (var told = 0; ;)
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            if (!await db.TicketEvents.AnyAsync(e => !e.Told, cancel))
            {
                return told;
            }

            await using var transaction = await db.BeginWriteAsync(cancel);
            // In the order of the index that holds only these: by the id alone SQLite would read through all that were told.
            var events = await db.TicketEvents.Where(e => !e.Told).OrderBy(e => e.Told).ThenBy(e => e.Id).Take(EventsAtOnce).ToListAsync(cancel);
            foreach (var sender in _senders.Values)
            {
                await sender.MakeAsync(db, events, Now, cancel);
            }

            events.ForEach(e => e.Told = true);
            await db.SaveChangesAsync(cancel);
            await transaction.CommitAsync(cancel);
            told += events.Count;
        }
    }

    /// <summary>Sends what is due, the oldest events first; to one receiver one after the other, and what fails ends its turn.</summary>
    /// <returns>How many tries were made.</returns>
    public async Task<int> SendDueAsync(CancellationToken cancel = default)
    {
        var tries = 0;
        var lanes = (await DueAsync(cancel)).GroupBy(Receiver.Of);
        await Parallel.ForEachAsync(lanes, new ParallelOptions { MaxDegreeOfParallelism = ReceiversAtOnce, CancellationToken = cancel }, async (lane, stop) =>
        {
            foreach (var delivery in lane)
            {
                Interlocked.Increment(ref tries);
                if (!await SendAsync(delivery, stop))
                {
                    return;
                }
            }
        });
        return tries;
    }

    // The oldest due ones; a receiver that has its share, rests, or must wait for an earlier one is left out.
    private async Task<List<Delivery>> DueAsync(CancellationToken cancel)
    {
        var now = Now;
        foreach (var (receiver, until) in _resting.Where(r => r.Value <= now))
        {
            _resting.TryRemove(new(receiver, until));
        }

        DeliveryKind[] known = [.. _senders.Keys];
        DeliveryKind[] inOrder = [.. _senders.Values.Where(s => s.InOrder).Select(s => s.Kind)];
        var left = _resting.Keys.ToHashSet();
        var chosen = new List<Delivery>();
        await using var db = await databases.CreateDbContextAsync(cancel);
        while (true)
        {
            var due = db.Deliveries.AsNoTracking().Include(d => d.Event)
                .Where(d => d.State == DeliveryState.Waiting && d.NextUtc <= now && known.Contains(d.Kind))
                .Where(d => !inOrder.Contains(d.Kind) || !db.Deliveries.Any(earlier =>
                    earlier.State == DeliveryState.Waiting && earlier.NextUtc > now && earlier.Kind == d.Kind && earlier.ReceiverId == d.ReceiverId && earlier.EventId < d.EventId));
            foreach (var kind in left.GroupBy(r => r.Kind))
            {
                int[] ids = [.. kind.Select(r => r.Id).Distinct()];
                string[] mails = [.. kind.Select(r => r.Mail)];
                due = kind.Key == DeliveryKind.Mail ? due.Where(d => d.Kind != kind.Key || !mails.Contains(d.To)) : due.Where(d => d.Kind != kind.Key || !ids.Contains(d.ReceiverId));
            }

            long[] had = [.. chosen.Select(d => d.Id)];
            var wanted = DeliveriesAtOnce - chosen.Count;
            var more = await due.Where(d => !had.Contains(d.Id)).OrderBy(d => d.EventId).ThenBy(d => d.Id).Take(wanted).ToListAsync(cancel);
            foreach (var delivery in more.Where(d => !left.Contains(Receiver.Of(d))))
            {
                chosen.Add(delivery);
                if (chosen.Count(d => Receiver.Of(d) == Receiver.Of(delivery)) == MostToOne)
                {
                    left.Add(Receiver.Of(delivery));
                }
            }

            if (more.Count < wanted || chosen.Count == DeliveriesAtOnce)
            {
                return chosen;
            }
        }
    }

    /// <returns>Did it arrive?</returns>
    private async Task<bool> SendAsync(Delivery delivery, CancellationToken cancel)
    {
        var sender = _senders[delivery.Kind];
        SendResult result;
        try
        {
            result = await sender.SendAsync(delivery, cancel);
        }
        catch (Exception e) when (!cancel.IsCancellationRequested)
        {
            // A defect of one kind of message must not keep the others.
            Failed(log, $"{delivery.Kind}", delivery.Id, e);
            result = new SendResult(false, "Something went wrong in this program; the reason is in its log.");
        }

        delivery.Attempts++;
        delivery.Answer = result.Answer.Length <= LongestAnswer ? result.Answer : result.Answer[..LongestAnswer];
        var wait = result.Arrived || result.Final ? null : sender.WaitAfter(delivery);
        if (wait is { } asked && result.NotBefore > asked)
        {
            wait = result.NotBefore;
        }

        var now = Now;
        // Of one that is over NextUtc is when that was: lists and tidying find it by the index of the state.
        (delivery.State, delivery.SentUtc, delivery.NextUtc) = result.Arrived
            ? (DeliveryState.Sent, now, now)
            : (wait is null ? DeliveryState.Dead : DeliveryState.Waiting, (DateTime?)null, now + (wait ?? TimeSpan.Zero));
        if (wait is { } rest)
        {
            _resting[Receiver.Of(delivery)] = now + (rest < LongestRest ? rest : LongestRest);
        }

        metrics.Sent($"{delivery.Kind}".ToLowerInvariant(), result.Arrived ? "arrived" : wait is null ? "given up" : "failed");
        try
        {
            await RecordAsync(delivery);
        }
        catch
        {
            // On a full disk the same message would go out every few seconds.
            _resting[Receiver.Of(delivery)] = now + LongestRest;
            throw;
        }

        return result.Arrived;
    }

    // It is out already: a program that is about to stop still writes that down.
    private async Task RecordAsync(Delivery delivery)
    {
        await using var db = await databases.CreateDbContextAsync(CancellationToken.None);
        await db.Deliveries.Where(d => d.Id == delivery.Id).ExecuteUpdateAsync(
            set => set.SetProperty(d => d.Attempts, delivery.Attempts).SetProperty(d => d.Answer, delivery.Answer).SetProperty(d => d.State, delivery.State)
                .SetProperty(d => d.SentUtc, delivery.SentUtc).SetProperty(d => d.NextUtc, delivery.NextUtc),
            CancellationToken.None);
    }

    private readonly record struct Receiver(DeliveryKind Kind, int Id, string Mail)
    {
        public static Receiver Of(Delivery delivery) => new(delivery.Kind, delivery.ReceiverId, delivery.Kind == DeliveryKind.Mail ? delivery.To : "");
    }
}
