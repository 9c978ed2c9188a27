using System.Net.Http.Headers;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Web.Exchange;

/// <summary>Sends XJMF signals to those who subscribed, in the order of what happened (XJDF 2.2, 9.6.4 and 9.6.5): once, or until they arrive.</summary>
internal sealed class SignalSender(IDbContextFactory<PlateRoomDb> databases, JobEntries jobs, OutgoingHttp http, TimeProvider clock) : IDeliverySender
{
    private static readonly TimeSpan[] Waits = [TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(10), TimeSpan.FromMinutes(1), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(30), TimeSpan.FromHours(2), TimeSpan.FromHours(6), TimeSpan.FromHours(12)];

    private static readonly TicketEventKind[] OfQueue =
        [TicketEventKind.Entered, TicketEventKind.Changed, TicketEventKind.Held, TicketEventKind.GoingOn, TicketEventKind.StageStarted, TicketEventKind.Finished, TicketEventKind.Cancelled];

    public DeliveryKind Kind => DeliveryKind.Signal;

    public bool InOrder => true;

    public async Task MakeAsync(PlateRoomDb db, IReadOnlyList<TicketEvent> events, DateTime nowUtc, CancellationToken cancel)
    {
        // Who may not ask any more is not told any more.
        var channels = await db.SignalChannels.AsNoTracking()
            .Where(c => c.EndedUtc == null && db.ApiKeys.Any(k => k.Name == c.Sender && k.RevokedUtc == null && k.ExpiresUtc > nowUtc)).ToListAsync(cancel);
        if (channels.Count == 0)
        {
            return;
        }

        // Only jobs that another program sent have a name that it knows.
        var tickets = events.Select(e => e.TicketId).Distinct().ToList();
        var names = (await db.ReceivedDocuments.Where(d => d.OrderId != null && tickets.Contains(d.OrderId.Value)).Select(d => new { d.OrderId, d.JobId }).Distinct().ToListAsync(cancel)).ToLookup(d => d.OrderId!.Value, d => d.JobId);
        db.Deliveries.AddRange(
            from happened in events
            where names.Contains(happened.TicketId)
            from channel in channels
            where (channel.MessageType == "Status" || OfQueue.Contains(happened.Kind)) && (channel.JobId.Length == 0 || names[happened.TicketId].Contains(channel.JobId))
            select new Delivery { Kind = DeliveryKind.Signal, EventId = happened.Id, ReceiverId = channel.Id, To = channel.Url, MadeUtc = nowUtc, NextUtc = nowUtc });
    }

    public async Task<SendResult> SendAsync(Delivery delivery, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var channel = await db.SignalChannels.AsNoTracking().SingleOrDefaultAsync(c => c.Id == delivery.ReceiverId, cancel);
        var happened = await db.TicketEvents.AsNoTracking().SingleOrDefaultAsync(e => e.Id == delivery.EventId, cancel);
        if (channel is not { EndedUtc: null } || happened is null || await jobs.OfTicketAsync(happened.TicketId, cancel) is not { } job)
        {
            return new(false, "The subscription was stopped.", Final: true);
        }

        var answer = await http.PostAsync(channel.Url, Body(XjmfText.Bytes(Signal(channel, happened, job, delivery.Id)), XjdfNames.XjmfType), new Dictionary<string, string>(), cancel);
        return answer.Arrived && ReturnCode(answer.Body) is { } code and not 0
            ? new(false, $"The receiver answered with return code {code}.", Final: !channel.Reliable)
            : new(answer.Arrived, answer.Sentence, Final: !answer.Arrived && !channel.Reliable);
    }

    public TimeSpan? WaitAfter(Delivery delivery) => delivery.Attempts <= Waits.Length ? Waits[Math.Max(0, delivery.Attempts - 1)] : null;

    internal static ByteArrayContent Body(byte[] bytes, string type) => new(bytes) { Headers = { ContentType = new MediaTypeHeaderValue(type) } };

    /// <summary>The return code of an answer; null for one that is no XJMF, such as an empty one (9.6.4).</summary>
    internal static int? ReturnCode(string body)
    {
        if (body.Length == 0)
        {
            return null;
        }

        try
        {
            var answer = SafeXml.Read(System.Text.Encoding.UTF8.GetBytes(body)).Root!;
            return answer.Elements().Select(e => (int?)e.Attribute("ReturnCode")).FirstOrDefault(c => c is not null);
        }
        catch (Exception e) when (e is DocumentRefusedException or FormatException)
        {
            return null;
        }
    }

    private System.Xml.Linq.XDocument Signal(SignalChannel channel, TicketEvent happened, JobEntry job, long id)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        return XjmfText.Message(now, XjmfText.Signal(
            channel.MessageType, happened.AtUtc, $"S{id}", channel.QueryId, channel.Reliable,
            channel.MessageType == "Status"
                ? XjmfText.DeviceInfo([XjmfText.JobPhase(job, Activities(happened, job))], job.Running is not null || happened.Kind is TicketEventKind.StageStarted)
                : new System.Xml.Linq.XElement(XjdfNames.Ns + "Queue", XjmfText.QueueEntry(job))));
    }

    // What happened is told as it was then; the rest of the phase is as the job stands now.
    private static IEnumerable<System.Xml.Linq.XElement>? Activities(TicketEvent happened, JobEntry job) => happened switch
    {
        { Kind: TicketEventKind.StageStarted, Station: { } station } => [XjmfText.Activity($"{station}", happened.AtUtc, null, happened.By)],
        { Kind: TicketEventKind.StageDone, Station: { } station } =>
            [XjmfText.Activity($"{station}", job.Passes.FirstOrDefault(p => p.SheetId == happened.SheetId && p.Station == station)?.StartedUtc, happened.AtUtc, happened.By)],
        _ => null,
    };
}
