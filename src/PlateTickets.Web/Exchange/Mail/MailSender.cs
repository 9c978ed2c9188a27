using System.Net.Sockets;
using MailKit;
using MailKit.Net.Smtp;
using MailKit.Security;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Options;
using MimeKit;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Exchange.Mail;

/// <summary>Writes to the customer's contact when an order is promised, at risk or finished.</summary>
internal sealed class MailSender(
    IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, IEnumerable<IStatusAddresses> addresses, IOptions<MailOptions> options, TimeProvider clock) : IDeliverySender
{
    private static readonly TicketEventKind[] Told = [TicketEventKind.Promised, TicketEventKind.AtRisk, TicketEventKind.Finished];

    // A risk that comes and goes is one risk to the customer.
    private static readonly TimeSpan RiskToldEvery = TimeSpan.FromHours(24);
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(30);
    private static readonly TimeSpan[] Waits = [.. BackOff.ThreeDays.Take(4)];

    private readonly IStatusAddresses? _addresses = addresses.FirstOrDefault();

    public DeliveryKind Kind => DeliveryKind.Mail;

    public async Task MakeAsync(PlateRoomDb db, IReadOnlyList<TicketEvent> events, DateTime nowUtc, CancellationToken cancel)
    {
        var told = events.Where(e => Told.Contains(e.Kind)).ToList();
        if (!options.Value.IsOn || told.Count == 0)
        {
            return;
        }

        int[] tickets = [.. told.Select(e => e.TicketId).Distinct()];
        var contacts = await db.Orders.Where(o => tickets.Contains(o.Id) && o.ContactMail != "").Select(o => new { o.Id, o.ContactMail }).ToDictionaryAsync(o => o.Id, o => o.ContactMail, cancel);
        var since = nowUtc - RiskToldEvery;
        var warned = (await db.TicketEvents
            .Where(e => tickets.Contains(e.TicketId) && e.Kind == TicketEventKind.AtRisk && db.Deliveries.Any(d => d.EventId == e.Id && d.Kind == DeliveryKind.Mail && d.MadeUtc > since))
            .Select(e => e.TicketId).ToListAsync(cancel)).ToHashSet();
        foreach (var happened in told)
        {
            if (contacts.TryGetValue(happened.TicketId, out var to) && (happened.Kind != TicketEventKind.AtRisk || warned.Add(happened.TicketId)))
            {
                db.Deliveries.Add(new Delivery { Kind = Kind, EventId = happened.Id, To = to, MadeUtc = nowUtc, NextUtc = nowUtc });
            }
        }
    }

    public async Task<SendResult> SendAsync(Delivery delivery, CancellationToken cancel)
    {
        if (!options.Value.IsOn)
        {
            return new SendResult(false, "No mail server is set.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        var order = await db.Orders.AsNoTracking().SingleAsync(o => o.Id == delivery.Event!.TicketId, cancel);
        if (order.ContactMail != delivery.To)
        {
            return new SendResult(false, "Not sent: the order has another contact now.", Final: true);
        }

        using var message = await WriteAsync(delivery, order, cancel);
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        limit.CancelAfter(Longest);
        try
        {
            return new SendResult(true, await SubmitAsync(message, limit.Token));
        }
        catch (SmtpCommandException e)
        {
            // 5yz will never be taken, RFC 5321 4.2.1; of the receiver, not of our own account or the server.
            var final = e.ErrorCode == SmtpErrorCode.RecipientNotAccepted && (int)e.StatusCode >= 500;
            return new SendResult(false, $"The mail server answered {(int)e.StatusCode}: {e.Message}", final);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return new SendResult(false, $"The mail server did not take the mail in time ({Longest.TotalSeconds:0} s).");
        }
        catch (Exception e) when (e is CommandException or ProtocolException or AuthenticationException or SslHandshakeException or ServiceNotAuthenticatedException
            or NotSupportedException or SocketException or IOException or TimeoutException)
        {
            return new SendResult(false, $"The mail server {options.Value.Server}:{options.Value.Port} could not be used: {e.Message}");
        }
    }

    public TimeSpan? WaitAfter(Delivery delivery) => BackOff.After(Waits, delivery.Attempts);

    private async Task<MimeMessage> WriteAsync(Delivery delivery, Order order, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var from = new MailboxAddress(room.Site.Name, options.Value.From);
        var status = _addresses is null ? null : await _addresses.FindAsync(order.Id, cancel);
        return new MimeMessage(
            [from], [new MailboxAddress("", delivery.To)], MailText.Subject(delivery.Event!, order),
            new TextPart("plain") { Text = MailText.Body(delivery.Event!, order, room.Site.Name, room.Zone, status) })
        {
            Date = clock.GetUtcNow(),
            // The same for every try: who gets it twice can tell.
            MessageId = $"plates-{delivery.Id}-{delivery.MadeUtc.Ticks:x}@{from.Domain}",
            // Out-of-office programs do not answer it: RFC 3834 5.
            Headers = { { "Auto-Submitted", "auto-generated" } },
        };
    }

    private async Task<string> SubmitAsync(MimeMessage message, CancellationToken cancel)
    {
        var set = options.Value;
        using var smtp = new SmtpClient { Timeout = (int)Longest.TotalMilliseconds };
        await smtp.ConnectAsync(
            set.Server, set.Port,
            set.Security switch
            {
                MailSecurity.Tls => SecureSocketOptions.SslOnConnect,
                MailSecurity.None => SecureSocketOptions.None,
                _ => SecureSocketOptions.StartTls,
            },
            cancel);
        if (set.User.Length > 0)
        {
            await smtp.AuthenticateAsync(set.User, set.Password, cancel);
        }

        var answer = await smtp.SendAsync(message, cancel);
        try
        {
            await smtp.DisconnectAsync(quit: true, cancel);
        }
        catch (Exception e) when (e is OperationCanceledException or CommandException or ProtocolException or IOException or SocketException)
        {
            // The server has taken the mail: how the two part changes nothing, and sending it again would.
        }

        return answer.Length == 0 ? "The mail server took it." : $"The mail server took it: {answer}";
    }
}
