using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging.Abstractions;
using PlateTickets.Process;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;

namespace PlateTickets.Tickets.Tests.Exchange;

public sealed class DeliveryDeskTests : IAsyncLifetime
{
    private RoomFixture _room = null!;
    private int _ticket;

    private DeliveryBook Book => new(_room, _room.Clock);

    public async Task InitializeAsync()
    {
        _room = await RoomFixture.CreateAsync();
        _ticket = (await _room.OrderAsync(["Cyan"])).Order.Id;
        await Desk().FanOutAsync();
    }

    public async Task DisposeAsync() => await _room.DisposeAsync();

    [Fact]
    public async Task Events_AreToldOnce_HoweverMany()
    {
        var sender = new FakeSender(DeliveryKind.Webhook, 2);
        var desk = Desk(sender);
        Assert.Equal(0, await desk.FanOutAsync());
        await HappenAsync((2 * DeliveryDesk.EventsAtOnce) + 1);
        Assert.Equal((2 * DeliveryDesk.EventsAtOnce) + 1, await desk.FanOutAsync());
        Assert.Equal(0, await desk.FanOutAsync());
        await using var db = _room.CreateDbContext();
        Assert.Equal(2 * ((2 * DeliveryDesk.EventsAtOnce) + 1), await db.Deliveries.CountAsync());
    }

    [Fact]
    public async Task SenderThatFails_LeavesTheEventsUntold()
    {
        await HappenAsync(3);
        var desk = Desk(new FakeSender(DeliveryKind.Webhook, 1), new Broken());
        await Assert.ThrowsAsync<InvalidOperationException>(() => desk.FanOutAsync());
        await using (var db = _room.CreateDbContext())
        {
            Assert.Equal((3, 0), (await db.TicketEvents.CountAsync(e => !e.Told), await db.Deliveries.CountAsync()));
        }

        Assert.Equal(3, await Desk(new FakeSender(DeliveryKind.Webhook, 1)).FanOutAsync());
    }

    [Fact]
    public async Task ManyReceivers_EightAtATime_NeverTwoToOne_OldestFirst()
    {
        var sender = new FakeSender(DeliveryKind.Webhook, 12)
        {
            Answer = async (_, cancel) =>
            {
                await Task.Delay(20, cancel);
                return new SendResult(true, "taken");
            },
        };
        var desk = Desk(sender);
        await HappenAsync(8);
        await desk.FanOutAsync();
        Assert.Equal(DeliveryDesk.DeliveriesAtOnce, await desk.SendDueAsync());
        while (await desk.SendDueAsync() > 0)
        {
        }

        Assert.Equal(12 * 8, sender.Sent.Count);
        Assert.InRange(sender.MostAtOnce, 2, 8);
        Assert.False(sender.TwoAtOnceToOne);
        Assert.All(sender.Sent.GroupBy(s => s.Receiver), to => Assert.Equal(to.Select(s => s.Event).Order(), to.Select(s => s.Event)));
        Assert.Equal(new DeliveryCounts(0, 0, 96), await Book.CountAsync());
    }

    [Fact]
    public async Task WhatFails_IsTriedAgain_GivenUp_AndSentAgainByAPerson()
    {
        var sender = new FakeSender(DeliveryKind.Webhook, 1) { Answer = (_, _) => Task.FromResult(new SendResult(false, new string('x', 3000))) };
        var desk = Desk(sender);
        await HappenAsync(1);
        await desk.FanOutAsync();
        Assert.Equal(1, await desk.SendDueAsync());
        var waiting = Assert.Single(await Book.ListAsync(DeliveryState.Waiting));
        Assert.Equal((1, _room.Now.AddMinutes(5), 1000), (waiting.Attempts, waiting.NextUtc, waiting.Answer.Length));
        _room.Clock.Advance(TimeSpan.FromMinutes(5) - TimeSpan.FromSeconds(1));
        Assert.Equal(0, await desk.SendDueAsync());
        for (var attempt = 2; attempt <= 3; attempt++)
        {
            _room.Clock.Advance(TimeSpan.FromMinutes(5));
            Assert.Equal(1, await desk.SendDueAsync());
        }

        _room.Clock.Advance(TimeSpan.FromDays(1));
        Assert.Equal(0, await desk.SendDueAsync());
        var dead = Assert.Single(await Book.ListAsync(DeliveryState.Dead));
        Assert.Equal(3, dead.Attempts);

        await Book.SendAgainAsync(dead.Id, "Ada");
        await Assert.ThrowsAsync<PlateRoomException>(() => Book.SendAgainAsync(dead.Id, "Ada"));
        sender.Answer = (_, _) => Task.FromResult(new SendResult(true, "taken"));
        Assert.Equal(1, await desk.SendDueAsync());
        var sent = Assert.Single(await Book.ListAsync(DeliveryState.Sent));
        Assert.Equal((1, _room.Now, "taken"), (sent.Attempts, sent.NextUtc, sent.Answer));
        await using var db = _room.CreateDbContext();
        Assert.Contains(await db.AuditEntries.ToListAsync(), e => e is { By: "Ada", Record: "Delivery", Field: "(sent a message again)" });
    }

    [Fact]
    public async Task AllOfAReceiver_AreSentAgain_AndNoOthers()
    {
        var sender = new FakeSender(DeliveryKind.Mail, 1) { Answer = (_, _) => Task.FromResult(new SendResult(false, "no such box", Final: true)) };
        var desk = Desk(sender);
        await HappenAsync(12);
        await desk.FanOutAsync();
        await using (var db = _room.CreateDbContext())
        {
            await db.Deliveries.Where(d => d.EventId % 2 == 0).ExecuteUpdateAsync(s => s.SetProperty(d => d.To, "another"));
        }

        while (await desk.SendDueAsync() > 0)
        {
        }

        Assert.Equal(new DeliveryCounts(0, 12, 0), await Book.CountAsync());
        Assert.Equal(6, await Book.SendAllAgainAsync(DeliveryKind.Mail, 0, "another", "Ada"));
        Assert.All(await Book.ListAsync(DeliveryState.Waiting), l => Assert.Equal(("another", 0), (l.To, l.Attempts)));
        Assert.Equal(0, await Book.SendAllAgainAsync(DeliveryKind.Webhook, 0, "another", "Ada"));
    }

    [Fact]
    public async Task InOrder_ALaterOneWaits_WhileAnEarlierOneIsTriedAgain()
    {
        var fails = true;
        var sender = new FakeSender(DeliveryKind.Signal, 2, inOrder: true);
        var first = (await HappenAsync(3))[0];
        sender.Answer = (d, _) => Task.FromResult(d is { ReceiverId: 1 } && d.EventId == first && fails ? new SendResult(false, "not now") : new SendResult(true, "taken"));
        var desk = Desk(sender);
        await desk.FanOutAsync();
        await desk.SendDueAsync();
        _room.Clock.Advance(TimeSpan.FromMinutes(4));
        await HappenAsync(1);
        await desk.FanOutAsync();
        await desk.SendDueAsync();
        Assert.Equal([first], sender.Sent.Where(s => s.Receiver == 1).Select(s => s.Event));
        Assert.Equal(4, sender.Sent.Count(s => s.Receiver == 2));
        fails = false;
        _room.Clock.Advance(TimeSpan.FromMinutes(2));
        await desk.SendDueAsync();
        Assert.Equal([first, first, first + 1, first + 2, first + 3], sender.Sent.Where(s => s.Receiver == 1).Select(s => s.Event));
    }

    [Fact]
    public async Task WithoutOrder_OneThatFails_HoldsUpTheOthersForAMinuteAtMost()
    {
        var sender = new FakeSender(DeliveryKind.Webhook, 1);
        var first = (await HappenAsync(3))[0];
        sender.Answer = (d, _) => Task.FromResult(d.EventId == first ? new SendResult(false, "not this one") : new SendResult(true, "taken"));
        var desk = Desk(sender);
        await desk.FanOutAsync();
        Assert.Equal(1, await desk.SendDueAsync());
        Assert.Equal(0, await desk.SendDueAsync());
        _room.Clock.Advance(TimeSpan.FromMinutes(1));
        Assert.Equal(2, await desk.SendDueAsync());
        Assert.Equal(new DeliveryCounts(1, 0, 2), await Book.CountAsync());
    }

    [Fact]
    public async Task ReceiverWithALongQueueThatDoesNotAnswer_LeavesTheOthersTheirTurn()
    {
        var sender = new FakeSender(DeliveryKind.Webhook, 2) { Answer = (d, _) => Task.FromResult(new SendResult(d.ReceiverId == 2, "…")) };
        var desk = Desk(sender);
        await HappenAsync(100);
        await desk.FanOutAsync();
        await using (var db = _room.CreateDbContext())
        {
            // The silent one has all the oldest.
            await db.Deliveries.Where(d => d.ReceiverId == 2).OrderBy(d => d.Id).Take(90).ExecuteDeleteAsync();
        }

        await desk.SendDueAsync();
        Assert.Equal(1, sender.Sent.Count(s => s.Receiver == 1));
        Assert.Equal(10, sender.Sent.Count(s => s.Receiver == 2));
    }

    [Fact]
    public async Task ReceiverThatAsksToBeLeftAlone_IsLeftAlone()
    {
        var sender = new FakeSender(DeliveryKind.Webhook, 1) { Answer = (_, _) => Task.FromResult(new SendResult(false, "busy", NotBefore: TimeSpan.FromHours(3))) };
        var desk = Desk(sender);
        await HappenAsync(1);
        await desk.FanOutAsync();
        await desk.SendDueAsync();
        Assert.Equal(_room.Now.AddHours(3), Assert.Single(await Book.ListAsync(DeliveryState.Waiting)).NextUtc);
    }

    [Fact]
    public async Task StopBetweenSendingAndRecording_SendsAgain_AndNothingIsLost()
    {
        using var stop = new CancellationTokenSource();
        var sender = new FakeSender(DeliveryKind.Webhook, 1)
        {
            // The receiver has it; then the program is stopped.
            Answer = async (_, cancel) =>
            {
                await stop.CancelAsync();
                cancel.ThrowIfCancellationRequested();
                return new SendResult(true, "never read");
            },
        };
        await HappenAsync(1);
        var desk = Desk(sender);
        await desk.FanOutAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => desk.SendDueAsync(stop.Token));
        var before = Assert.Single(await Book.ListAsync(DeliveryState.Waiting));
        Assert.Equal(0, before.Attempts);

        var next = new FakeSender(DeliveryKind.Webhook, 1);
        Assert.Equal(1, await Desk(next).SendDueAsync());
        Assert.Equal(before.Id, Assert.Single(await Book.ListAsync(DeliveryState.Sent)).Id);
    }

    [Fact]
    public async Task DatabaseThatTakesNoRecord_DoesNotSendTheSameEverySecond()
    {
        var databases = new Failing(_room);
        var sender = new FakeSender(DeliveryKind.Webhook, 1)
        {
            Answer = (_, _) =>
            {
                databases.Fails = true;
                return Task.FromResult(new SendResult(true, "taken"));
            },
        };
        var desk = new DeliveryDesk(databases, [sender], new RoomMetrics(), _room.Clock, NullLogger<DeliveryDesk>.Instance);
        await HappenAsync(1);
        await desk.FanOutAsync();
        await Assert.ThrowsAsync<IOException>(() => desk.SendDueAsync());
        databases.Fails = false;
        Assert.Equal(0, await desk.SendDueAsync());
        _room.Clock.Advance(TimeSpan.FromMinutes(1));
        sender.Answer = (_, _) => Task.FromResult(new SendResult(true, "taken"));
        Assert.Equal(1, await desk.SendDueAsync());
        Assert.Equal(new DeliveryCounts(0, 0, 1), await Book.CountAsync());
    }

    [Fact]
    public async Task DefectOfOneSender_IsAFailedTry_AndTheOthersGoOn()
    {
        var broken = new FakeSender(DeliveryKind.Webhook, 1) { Answer = (_, _) => throw new InvalidOperationException("a defect") };
        var good = new FakeSender(DeliveryKind.Signal, 1);
        var desk = Desk(broken, good);
        await HappenAsync(1);
        await desk.FanOutAsync();
        Assert.Equal(2, await desk.SendDueAsync());
        Assert.Equal(new DeliveryCounts(1, 0, 1), await Book.CountAsync());
        Assert.DoesNotContain("a defect", Assert.Single(await Book.ListAsync(DeliveryState.Waiting)).Answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Tidying_DeletesWhatIsOver_AndKeepsTheRest()
    {
        var sender = new FakeSender(DeliveryKind.Webhook, 1) { Answer = (d, _) => Task.FromResult(d.EventId % 2 == 0 ? new SendResult(true, "taken") : new SendResult(false, "no", Final: true)) };
        var desk = Desk(sender);
        await HappenAsync(1100, TicketEventKind.StageStarted);
        await HappenAsync(2, TicketEventKind.Finished);
        await Desk().FanOutAsync();
        await HappenAsync(10, TicketEventKind.StageDone);
        await desk.FanOutAsync();
        while (await desk.SendDueAsync() > 0)
        {
        }

        Assert.Equal(new DeliveryCounts(0, 5, 5), await Book.CountAsync());
        Assert.Equal(0, await Book.TidyAsync());
        _room.Clock.Advance(TimeSpan.FromDays(31));
        Assert.Equal(5, await Book.TidyAsync());
        Assert.Equal(new DeliveryCounts(0, 5, 0), await Book.CountAsync());
        await using var db = _room.CreateDbContext();
        var kept = await db.TicketEvents.CountAsync(e => e.Kind != TicketEventKind.StageStarted && e.Kind != TicketEventKind.StageDone);
        _room.Clock.Advance(TimeSpan.FromDays(370));
        Assert.Equal(5 + 1100 + 10, await Book.TidyAsync());
        Assert.Equal(kept, await db.TicketEvents.CountAsync());
    }

    [Fact]
    public void BackOff_IsThatOfTheSpecification()
    {
        // Standard Webhooks 1.0.0, "Deliverability and reliability", example schedule.
        int[] seconds = [5, 300, 1800, 7200, 18_000, 36_000, 50_400, 72_000, 86_400];
        for (var attempt = 1; attempt <= seconds.Length; attempt++)
        {
            var waits = Enumerable.Range(0, 50).Select(_ => BackOff.After(BackOff.ThreeDays, attempt)!.Value.TotalSeconds).ToList();
            Assert.All(waits, w => Assert.InRange(w, seconds[attempt - 1], seconds[attempt - 1] * 1.1));
            Assert.True(waits.Distinct().Count() > 10);
        }

        Assert.Null(BackOff.After(BackOff.ThreeDays, 10));
    }

    private DeliveryDesk Desk(params IDeliverySender[] senders) => new(_room, senders, new RoomMetrics(), _room.Clock, NullLogger<DeliveryDesk>.Instance);

    private async Task<IReadOnlyList<long>> HappenAsync(int count, TicketEventKind kind = TicketEventKind.Held)
    {
        await using var db = _room.CreateDbContext();
        var events = Enumerable.Range(0, count).Select(_ => new TicketEvent { TicketId = _ticket, Kind = kind, AtUtc = _room.Now, By = "test" }).ToList();
        db.TicketEvents.AddRange(events);
        await db.SaveChangesAsync();
        return [.. events.Select(e => e.Id).Order()];
    }

    private sealed class Failing(RoomFixture room) : IDbContextFactory<PlateRoomDb>
    {
        public bool Fails { get; set; }

        public PlateRoomDb CreateDbContext() => Fails ? throw new IOException("The disk is full.") : room.CreateDbContext();
    }

    private sealed class Broken : IDeliverySender
    {
        public DeliveryKind Kind => DeliveryKind.Return;

        public Task MakeAsync(PlateRoomDb db, IReadOnlyList<TicketEvent> events, DateTime nowUtc, CancellationToken cancel) => throw new InvalidOperationException("a defect");

        public Task<SendResult> SendAsync(Delivery delivery, CancellationToken cancel) => throw new NotSupportedException();

        public TimeSpan? WaitAfter(Delivery delivery) => null;
    }
}
