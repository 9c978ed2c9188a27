using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;

namespace PlateTickets.Web.Exchange.Webhooks;

/// <summary>Tells other programs by signed CloudEvents what happened to tickets.</summary>
internal sealed class WebhookSender(IDbContextFactory<PlateRoomDb> databases, WebhookPost post, TimeProvider clock) : IDeliverySender
{
    private static readonly TimeSpan LongestAsked = TimeSpan.FromDays(1);

    public DeliveryKind Kind => DeliveryKind.Webhook;

    public async Task MakeAsync(PlateRoomDb db, IReadOnlyList<TicketEvent> events, DateTime nowUtc, CancellationToken cancel)
    {
        var webhooks = (await db.Webhooks.AsNoTracking().Where(w => w.RemovedUtc == null && w.PausedBecause == "").OrderBy(w => w.Id).ToListAsync(cancel))
            .Select(w => (Webhook: w, Kinds: w.KindList.ToHashSet())).ToList();
        db.Deliveries.AddRange(
            from happened in events
            from to in webhooks
            where to.Kinds.Contains(happened.Kind)
            select new Delivery { Kind = Kind, EventId = happened.Id, ReceiverId = to.Webhook.Id, To = to.Webhook.Url, MadeUtc = nowUtc, NextUtc = nowUtc });
    }

    public async Task<SendResult> SendAsync(Delivery delivery, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var webhook = await db.Webhooks.SingleAsync(w => w.Id == delivery.ReceiverId, cancel);
        if (webhook.RemovedUtc is not null || webhook.PausedBecause.Length > 0)
        {
            return new SendResult(false, webhook.RemovedUtc is not null ? "Not sent: the webhook was removed." : $"Not sent: the webhook is paused. {webhook.PausedBecause}", Final: true);
        }

        var happened = delivery.Event!;
        var order = await db.Orders.AsNoTracking().Include(o => o.Customer).Include(o => o.Ticket).SingleAsync(o => o.Id == happened.TicketId, cancel);
        var answer = await post.SendAsync(webhook, $"msg_{UniqueId.Of(delivery.Id, delivery.MadeUtc)}", TicketCloudEvent.Of(happened, order), cancel);
        if (answer.Status != StatusCodes.Status410Gone)
        {
            return new SendResult(answer.Arrived, answer.Sentence, NotBefore: answer.Arrived ? null : Asked(answer));
        }

        webhook.PausedBecause = $"The receiver answered 410 on {clock.GetUtcNow().UtcDateTime.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)} UTC: it wants no more messages.";
        await db.SaveChangesAsync(cancel);
        return new SendResult(false, answer.Sentence, Final: true);
    }

    public TimeSpan? WaitAfter(Delivery delivery) => BackOff.After(BackOff.ThreeDays, delivery.Attempts);

    // Retry-After of a receiver that has too much to do (429) or rests (503): seconds or a date, RFC 9110 10.2.3.
    private TimeSpan? Asked(HttpAnswer answer)
    {
        if (answer.Status is not (StatusCodes.Status429TooManyRequests or StatusCodes.Status503ServiceUnavailable) || answer.RetryAfter is not { } text)
        {
            return null;
        }

        // Seconds beyond the number's range are still a wish for long.
        TimeSpan? asked = ulong.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var seconds) ? TimeSpan.FromSeconds(Math.Min(seconds, LongestAsked.TotalSeconds))
            : DateTimeOffset.TryParseExact(text, "r", CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var at) ? at - clock.GetUtcNow()
            : null;
        return asked > LongestAsked ? LongestAsked : asked;
    }
}
