using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Options;
using MimeKit;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Tests;
using PlateTickets.Web.Exchange.Mail;
using SmtpServer.Protocol;

namespace PlateTickets.Web.Tests.Exchange;

public sealed class MailTests : IAsyncLifetime
{
    private const string Customer = "buyer@northmere.example";

    private readonly MailServer _server = MailServer.Start();
    private RoomFixture _room = null!;
    private TicketView _ticket = null!;

    private DeliveryBook Book => new(_room, _room.Clock);

    private OrderContacts Contacts => new(_room);

    public async Task InitializeAsync()
    {
        _room = await RoomFixture.CreateAsync();
        _ticket = await _room.OrderAsync(["Cyan"]);
        await Desk().FanOutAsync();
        await Contacts.SetAsync(_ticket.Order.Number, Customer, "PO 4711", "Ada");
    }

    public async Task DisposeAsync()
    {
        await _server.DisposeAsync();
        await _room.DisposeAsync();
    }

    [Fact]
    public async Task Promise_IsMailedInPlainWords()
    {
        await HappenAsync(TicketEventKind.Promised, _room.Now.AddHours(6));
        await SendAsync(Desk());
        var mail = Assert.Single(_server.Mails);
        Assert.Equal("Your plates are planned: Test job", mail.Subject);
        Assert.Equal(Customer, ((MailboxAddress)Assert.Single(mail.To)).Address);
        Assert.Equal("plates@room.example", ((MailboxAddress)Assert.Single(mail.From)).Address);
        Assert.Equal("auto-generated", mail.Headers["Auto-Submitted"]);
        var delivery = Assert.Single(await Book.ListAsync(DeliveryState.Sent));
        Assert.Matches($"^plates-{delivery.Id}-[0-9a-f]+@room\\.example$", mail.MessageId);
        Assert.Equal(
            $"""
            The plates of this order are planned to be done by Wed 25 Nov 2026, 14:00 (UTC+00:00).

            Job:            Test job
            Your reference: PO 4711
            Our ticket:     {TrackingNumber.ForPeople(_ticket.Order.Number)}
            Asked for by:   Thu 26 Nov 2026, 14:00 (UTC+00:00)

            See how far it is:
            https://plates.example/status/of-{_ticket.Order.Id}


            """,
            mail.TextBody!.ReplaceLineEndings("\n")[..mail.TextBody.ReplaceLineEndings("\n").IndexOf((await _room.Rooms.GetAsync()).Site.Name, StringComparison.Ordinal)],
            ignoreLineEndingDifferences: true);
    }

    [Fact]
    public void Times_AreTheSites_OnBothSidesOfAClockChange()
    {
        // Central European Time: IANA tzdata, Europe/Vienna; +01:00 in winter, +02:00 in summer. New York is behind.
        var vienna = TimeZoneInfo.FindSystemTimeZoneById("Europe/Vienna");
        Assert.Equal("Wed 25 Nov 2026, 15:00 (UTC+01:00)", MailText.Moment(new DateTime(2026, 11, 25, 14, 0, 0, DateTimeKind.Utc), vienna));
        Assert.Equal("Sat 25 Jul 2026, 16:00 (UTC+02:00)", MailText.Moment(new DateTime(2026, 7, 25, 14, 0, 0, DateTimeKind.Utc), vienna));
        Assert.Equal("Wed 25 Nov 2026, 09:00 (UTC-05:00)", MailText.Moment(new DateTime(2026, 11, 25, 14, 0, 0, DateTimeKind.Utc), TimeZoneInfo.FindSystemTimeZoneById("America/New_York")));
    }

    [Fact]
    public async Task Risk_IsToldOnceADay()
    {
        var desk = Desk();
        await HappenAsync(TicketEventKind.AtRisk);
        await HappenAsync(TicketEventKind.OnTimeAgain);
        await HappenAsync(TicketEventKind.AtRisk);
        await SendAsync(desk);
        _room.Clock.Advance(TimeSpan.FromHours(23));
        await HappenAsync(TicketEventKind.AtRisk);
        await SendAsync(desk);
        Assert.Single(_server.Mails);
        _room.Clock.Advance(TimeSpan.FromHours(2));
        await HappenAsync(TicketEventKind.AtRisk);
        await HappenAsync(TicketEventKind.Finished);
        await SendAsync(desk);
        Assert.Equal(["Your plates may come late: Test job", "Your plates may come late: Test job", "Your plates are done: Test job"], _server.Mails.Select(m => m.Subject));
    }

    [Fact]
    public async Task OthersKinds_OrdersWithoutContact_AndMailSwitchedOff_SendNothing()
    {
        await HappenAsync(TicketEventKind.Held);
        await HappenAsync(TicketEventKind.Late);
        await Contacts.SetAsync(_ticket.Order.Number, "", "", "Ada");
        await HappenAsync(TicketEventKind.Finished);
        await SendAsync(Desk());
        await Contacts.SetAsync(_ticket.Order.Number, Customer, "", "Ada");
        await HappenAsync(TicketEventKind.Finished);
        await SendAsync(Desk(new MailOptions()));
        Assert.Equal(new DeliveryCounts(0, 0, 0), await Book.CountAsync());
    }

    [Fact]
    public async Task WhatAStrangerWrote_AddsNoHeaderAndNoLine()
    {
        await using (var db = _room.CreateDbContext())
        {
            var order = await db.Orders.SingleAsync(o => o.Id == _ticket.Order.Id);
            (order.Title, order.CustomerReference) = ("Foil\r\nBcc: all@victims.example\r\n\r\nBuy now", "PO\n\n.\nMAIL FROM:<x@y.example>");
            await db.SaveChangesAsync();
        }

        await HappenAsync(TicketEventKind.Finished);
        await SendAsync(Desk());
        var mail = Assert.Single(_server.Mails);
        Assert.Empty(mail.Bcc);
        Assert.Equal("Your plates are done: Foil Bcc: all@victims.example Buy now", mail.Subject);
        Assert.Contains("Job:            Foil Bcc: all@victims.example Buy now\n", mail.TextBody!.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.DoesNotContain("\nBcc:", Assert.Single(_server.Texts), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ReceiverThatIsRefusedForEver_IsGivenUpAtOnce()
    {
        _server.Recipient = new SmtpResponse(SmtpReplyCode.MailboxUnavailable, "no such box");
        await HappenAsync(TicketEventKind.Finished);
        await SendAsync(Desk());
        var dead = Assert.Single(await Book.ListAsync(DeliveryState.Dead));
        Assert.Equal(1, dead.Attempts);
        Assert.StartsWith("The mail server answered 550", dead.Answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ServerThatIsBusy_IsTriedFiveTimes_AndTheMailKeepsItsId()
    {
        _server.Recipient = new SmtpResponse((SmtpReplyCode)450, "later");
        await HappenAsync(TicketEventKind.Finished);
        var desk = Desk();
        await SendAsync(desk);
        Assert.Single(await Book.ListAsync(DeliveryState.Waiting));
        for (var attempt = 2; attempt <= 6; attempt++)
        {
            _room.Clock.Advance(TimeSpan.FromHours(3));
            await SendAsync(desk);
        }

        var dead = Assert.Single(await Book.ListAsync(DeliveryState.Dead));
        Assert.Equal(5, dead.Attempts);
        _server.Recipient = null;
        await Book.SendAgainAsync(dead.Id, "Ada");
        await SendAsync(desk);
        Assert.StartsWith($"plates-{dead.Id}-", Assert.Single(_server.Mails).MessageId, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ServerWithoutTls_GetsNoMailInPlainText()
    {
        await HappenAsync(TicketEventKind.Finished);
        await SendAsync(Desk(Set(MailSecurity.StartTls)));
        Assert.StartsWith($"The mail server 127.0.0.1:{_server.Port} could not be used:", Assert.Single(await Book.ListAsync(DeliveryState.Waiting)).Answer, StringComparison.Ordinal);
        Assert.Empty(_server.Mails);
    }

    [Fact]
    public async Task AnotherContactMeanwhile_IsNotTheOldOnesMail()
    {
        await HappenAsync(TicketEventKind.Finished);
        var desk = Desk();
        await desk.FanOutAsync();
        await Contacts.SetAsync(_ticket.Order.Number, "other@northmere.example", "", "Ada");
        await desk.SendDueAsync();
        Assert.Empty(_server.Mails);
        Assert.Contains("another contact", Assert.Single(await Book.ListAsync(DeliveryState.Dead)).Answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Contact_IsAudited_AndOneAddressOnly()
    {
        foreach (var wrong in new[] { "no address", "a@b@c.example", "Ada <ada@plant.example>", "a@b.example, c@d.example", "a@b.example\r\nBcc: x@y.example", "@plant.example", "ada@", new string('a', 250) + "@b.example" })
        {
            var refused = await Assert.ThrowsAsync<PlateRoomException>(() => Contacts.SetAsync(_ticket.Order.Number, wrong, "", "Ada"));
            Assert.Contains("is not one mail address", refused.Message, StringComparison.Ordinal);
        }

        await Contacts.SetAsync(_ticket.Order.Number, " o'neill+plates@bücher.example ", " PO 2 ", "Ada");
        var order = (await _room.Orders.FindAsync(_ticket.Order.Number))!.Order;
        Assert.Equal(("o'neill+plates@bücher.example", "PO 2"), (order.ContactMail, order.CustomerReference));
        await using var db = _room.CreateDbContext();
        Assert.Contains(await db.AuditEntries.ToListAsync(), e => e is { By: "Ada", Record: "Order", Field: nameof(Order.ContactMail), From: Customer });
        await Assert.ThrowsAsync<PlateRoomException>(() => Contacts.SetAsync("T0000000X", Customer, "", "Ada"));
        await Assert.ThrowsAsync<PlateRoomException>(() => Contacts.SetAsync(_ticket.Order.Number, "", new string('x', 101), "Ada"));
    }

    [Fact]
    public void Settings_AreCheckedAtTheStart()
    {
        Assert.Empty(new MailOptions().Validate(new(new object())));
        Assert.Empty(Set(MailSecurity.None).Validate(new(new object())));
        Assert.Single(new MailOptions { Server = "smtp.example" }.Validate(new(new object())));
        Assert.Single(new MailOptions { Server = "smtp.example", From = "a@b.example", User = "a", Password = "b", Security = MailSecurity.None }.Validate(new(new object())));
    }

    private MailOptions Set(MailSecurity security) => new() { Server = "127.0.0.1", Port = _server.Port, Security = security, From = "plates@room.example" };

    private DeliveryDesk Desk(MailOptions? options = null) => new(
        _room, [new MailSender(_room, _room.Rooms, [new Addresses()], Options.Create(options ?? Set(MailSecurity.None)), _room.Clock)], new RoomMetrics(), _room.Clock, NullLogger<DeliveryDesk>.Instance);

    private static async Task SendAsync(DeliveryDesk desk)
    {
        await desk.FanOutAsync();
        while (await desk.SendDueAsync() > 0)
        {
        }
    }

    private async Task HappenAsync(TicketEventKind kind, DateTime? forUtc = null)
    {
        await using var db = _room.CreateDbContext();
        db.TicketEvents.Add(new TicketEvent { TicketId = _ticket.Order.Id, Kind = kind, AtUtc = _room.Now, By = "test", ForUtc = forUtc });
        await db.SaveChangesAsync();
    }

    private sealed class Addresses : IStatusAddresses
    {
        public Task<string?> FindAsync(int orderId, CancellationToken cancel) => Task.FromResult<string?>($"https://plates.example/status/of-{orderId}");
    }
}
