using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Web.Exchange;

/// <summary>Gives a finished or cancelled job back to its sender: message and document with all audits in one package.</summary>
internal sealed class ReturnSender(IDbContextFactory<PlateRoomDb> databases, JobEntries jobs, ReturnedXjdf returned, OutgoingHttp http) : IDeliverySender
{
    private static readonly TimeSpan[] Waits = [TimeSpan.FromSeconds(5), TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(30), TimeSpan.FromHours(2), TimeSpan.FromHours(6), TimeSpan.FromHours(12), TimeSpan.FromHours(24)];

    public DeliveryKind Kind => DeliveryKind.Return;

    public async Task MakeAsync(PlateRoomDb db, IReadOnlyList<TicketEvent> events, DateTime nowUtc, CancellationToken cancel)
    {
        var over = events.Where(e => e.Kind is TicketEventKind.Finished or TicketEventKind.Cancelled).ToList();
        var tickets = over.Select(e => e.TicketId).Distinct().ToList();
        if (tickets.Count == 0)
        {
            return;
        }

        var wanted = (await db.ReceivedDocuments.AsNoTracking().Where(d => d.OrderId != null && tickets.Contains(d.OrderId.Value) && d.ReturnUrl != "").OrderByDescending(d => d.Id).ToListAsync(cancel))
            .DistinctBy(d => d.OrderId).ToDictionary(d => d.OrderId!.Value);
        db.Deliveries.AddRange(over.Where(e => wanted.ContainsKey(e.TicketId)).Select(e => new Delivery
        {
            Kind = DeliveryKind.Return,
            EventId = e.Id,
            ReceiverId = wanted[e.TicketId].Id,
            To = wanted[e.TicketId].ReturnUrl,
            MadeUtc = nowUtc,
            NextUtc = nowUtc,
        }));
    }

    public async Task<SendResult> SendAsync(Delivery delivery, CancellationToken cancel)
    {
        int ticketId;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            ticketId = await db.TicketEvents.Where(e => e.Id == delivery.EventId).Select(e => e.TicketId).SingleOrDefaultAsync(cancel);
        }

        if (await jobs.OfTicketAsync(ticketId, cancel) is not { } job)
        {
            return new(false, "The job is not here any more.", Final: true);
        }

        var answer = await http.PostAsync(delivery.To, SignalSender.Body(await returned.PackageAsync(job, $"RQ{delivery.Id}", cancel), XjdfNames.XjmfZipType), new Dictionary<string, string>(), cancel);
        return answer.Arrived && SignalSender.ReturnCode(answer.Body) is { } code and not 0
            ? new(false, $"The receiver answered with return code {code}.")
            : new(answer.Arrived, answer.Sentence);
    }

    public TimeSpan? WaitAfter(Delivery delivery) => delivery.Attempts <= Waits.Length ? Waits[Math.Max(0, delivery.Attempts - 1)] : null;
}
