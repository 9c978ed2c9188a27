using System.Collections.Concurrent;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;

namespace PlateTickets.Tickets.Tests.Exchange;

/// <summary>Tells receivers 1 to <paramref name="receivers"/> of everything, and notes what it was asked to send.</summary>
internal sealed class FakeSender(DeliveryKind kind, int receivers, bool inOrder = false) : IDeliverySender
{
    private readonly ConcurrentQueue<(int Receiver, long Event)> _sent = [];
    private readonly ConcurrentDictionary<int, int> _busy = [];
    private int _atOnce;

    public DeliveryKind Kind => kind;

    public bool InOrder => inOrder;

    /// <summary>What becomes of a try; it arrives unless set.</summary>
    public Func<Delivery, CancellationToken, Task<SendResult>> Answer { get; set; } = (_, _) => Task.FromResult(new SendResult(true, "taken"));

    public IReadOnlyList<(int Receiver, long Event)> Sent => [.. _sent];

    public int MostAtOnce { get; private set; }

    public bool TwoAtOnceToOne { get; private set; }

    public Task MakeAsync(PlateRoomDb db, IReadOnlyList<TicketEvent> events, DateTime nowUtc, CancellationToken cancel)
    {
        db.Deliveries.AddRange(events.SelectMany(e => Enumerable.Range(1, receivers).Select(r => new Delivery
        {
            Kind = kind,
            EventId = e.Id,
            ReceiverId = kind == DeliveryKind.Mail ? 0 : r,
            To = $"receiver {r}",
            MadeUtc = nowUtc,
            NextUtc = nowUtc,
        })));
        return Task.CompletedTask;
    }

    public async Task<SendResult> SendAsync(Delivery delivery, CancellationToken cancel)
    {
        lock (_sent)
        {
            MostAtOnce = Math.Max(MostAtOnce, ++_atOnce);
        }

        TwoAtOnceToOne |= _busy.AddOrUpdate(delivery.ReceiverId, 1, (_, n) => n + 1) > 1;
        _sent.Enqueue((delivery.ReceiverId, delivery.EventId));
        try
        {
            await Task.Yield();
            return await Answer(delivery, cancel);
        }
        finally
        {
            _busy.AddOrUpdate(delivery.ReceiverId, 0, (_, n) => n - 1);
            lock (_sent)
            {
                _atOnce--;
            }
        }
    }

    public TimeSpan? WaitAfter(Delivery delivery) => delivery.Attempts < 3 ? TimeSpan.FromMinutes(5) : null;
}
