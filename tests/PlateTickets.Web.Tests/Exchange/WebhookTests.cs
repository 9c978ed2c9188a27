using System.Net.Mime;
using System.Text;
using System.Text.Json;
using CloudNative.CloudEvents;
using CloudNative.CloudEvents.SystemTextJson;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Logging.Abstractions;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Tests;
using PlateTickets.Web.Exchange;
using PlateTickets.Web.Exchange.Webhooks;
using StandardWebhooks;

namespace PlateTickets.Web.Tests.Exchange;

public sealed class WebhookTests : IAsyncLifetime
{
    private static readonly TicketEventKind[] All = [.. TicketCloudEvent.Kinds.Select(k => k.Kind)];

    private readonly OutgoingHttp _http = new(["127.0.0.1"], (_, _) => throw new InvalidOperationException(), TimeSpan.FromSeconds(10));
    private readonly SecretKeeper _secrets = new(new EphemeralDataProtectionProvider(), NullLogger<SecretKeeper>.Instance);
    private RoomFixture _room = null!;
    private Receiver _receiver = null!;
    private TicketView _ticket = null!;

    private WebhookDesk Webhooks => new(_room, _http, _secrets, _room.Clock);

    private DeliveryBook Book => new(_room, _room.Clock);

    public async Task InitializeAsync()
    {
        (_room, _receiver) = (await RoomFixture.CreateAsync(), await Receiver.StartAsync());
        _ticket = await _room.OrderAsync(["Cyan"]);
        await Desk().FanOutAsync();
    }

    public async Task DisposeAsync()
    {
        _http.Dispose();
        await _receiver.DisposeAsync();
        await _room.DisposeAsync();
    }

    [Fact]
    public async Task Message_IsVerifiedAndReadBack_ByLibrariesThatAreNotOurs()
    {
        // The library looks at the real clock for messages that are too old.
        var secret = await Webhooks.MakeAsync("Desk of the mill", _receiver.Url, All, "Ada");
        await HappenAsync(TicketEventKind.AtRisk, forUtc: _room.Now.AddHours(5));
        await HappenAsync(TicketEventKind.PlateRemade, why: "Scratch", station: Station.Washout);
        await HappenAsync(TicketEventKind.StageDone);
        await using (var db = _room.CreateDbContext())
        {
            (await db.Orders.SingleAsync(o => o.Id == _ticket.Order.Id)).CustomerReference = "PO 4711/ü";
            await db.SaveChangesAsync();
        }

        var desk = Desk(TimeProvider.System);
        await desk.FanOutAsync();
        Assert.Equal(2, await desk.SendDueAsync());
        Assert.Equal(2, _receiver.Messages.Count);
        foreach (var message in _receiver.Messages)
        {
            var headers = new HeaderDictionary();
            foreach (string name in message.Headers)
            {
                headers[name] = message.Headers[name];
            }

            new StandardWebhook(secret).Verify(Encoding.UTF8.GetString(message.Body), headers);
        }

        var risk = Read(_receiver.Messages[0]);
        Assert.Equal("plate-room.ticket.at-risk", risk.Type);
        Assert.Equal((_ticket.Order.Number, new Uri("/plate-room", UriKind.Relative), CloudEventsSpecVersion.V1_0), (risk.Subject, risk.Source, risk.SpecVersion));
        Assert.StartsWith("evt-", risk.Id, StringComparison.Ordinal);
        Assert.Equal(_room.Now, risk.Time!.Value.UtcDateTime);
        var data = (JsonElement)risk.Data!;
        Assert.Equal(
            (_ticket.Order.Number, "Test job", "Test Customer", "PO 4711/ü", "ready"),
            (Text(data, "ticket"), Text(data, "title"), Text(data, "customer"), Text(data, "customerReference"), Text(data, "state")));
        Assert.Equal((_ticket.Order.DueUtc, _room.Now.AddHours(5)), (data.GetProperty("due").GetDateTime(), data.GetProperty("promise").GetDateTime()));
        Assert.False(data.TryGetProperty("reason", out _));

        var remade = Read(_receiver.Messages[1]);
        Assert.Equal("plate-room.plate.remade", remade.Type);
        Assert.Equal(("Scratch", "washout"), (Text((JsonElement)remade.Data!, "reason"), Text((JsonElement)remade.Data!, "station")));
        Assert.All(_receiver.Messages, m => Assert.StartsWith("application/cloudevents+json", m.ContentType, StringComparison.Ordinal));
    }

    [Fact]
    public async Task ReceiverThatFailsThreeTimes_GetsTheSameMessageAgain_FreshlySigned()
    {
        await Webhooks.MakeAsync("Mill", _receiver.Url, All, "Ada");
        var failures = 3;
        _receiver.Answer = context =>
        {
            context.Response.StatusCode = failures-- > 0 ? 500 : 204;
            return Task.CompletedTask;
        };
        await HappenAsync(TicketEventKind.Finished);
        var desk = Desk();
        await desk.FanOutAsync();
        foreach (var wait in new[] { TimeSpan.Zero, TimeSpan.FromSeconds(5), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(30) })
        {
            _room.Clock.Advance(wait * 1.1);
            Assert.Equal(1, await desk.SendDueAsync());
        }

        var id = Assert.Single(_receiver.Messages.Select(m => m.Headers["webhook-id"]!).Distinct());
        Assert.StartsWith($"msg_{Assert.Single(await Book.ListAsync(DeliveryState.Sent)).Id}-", id, StringComparison.Ordinal);
        Assert.Single(_receiver.Messages.Select(m => Convert.ToHexString(m.Body)).Distinct());
        Assert.Equal(4, _receiver.Messages.Select(m => m.Headers["webhook-signature"]!).Distinct().Count());
    }

    [Fact]
    public async Task ReceiverThatNeverAnswersWell_IsGivenUpAfterTenTries()
    {
        await Webhooks.MakeAsync("Mill", _receiver.Url, All, "Ada");
        _receiver.Answer = async context =>
        {
            context.Response.StatusCode = 500;
            await context.Response.WriteAsync("the database\r\n is away");
        };
        await HappenAsync(TicketEventKind.Finished);
        var desk = Desk();
        await desk.FanOutAsync();
        for (var attempt = 0; attempt < 12; attempt++)
        {
            await desk.SendDueAsync();
            _room.Clock.Advance(TimeSpan.FromHours(27));
        }

        Assert.Equal(10, _receiver.Messages.Count);
        var dead = Assert.Single(await Book.ListAsync(DeliveryState.Dead));
        Assert.Equal((10, "The receiver answered 500: the database is away"), (dead.Attempts, dead.Answer));
    }

    [Fact]
    public async Task StopAfterTheReceiverTookIt_SendsTheSameIdAgain()
    {
        await Webhooks.MakeAsync("Mill", _receiver.Url, All, "Ada");
        await HappenAsync(TicketEventKind.Finished);
        using var stop = new CancellationTokenSource();
        _receiver.Answer = async context =>
        {
            // It has the whole message; the program is killed before the answer reaches it.
            await stop.CancelAsync();
            await Task.Delay(Timeout.Infinite, context.RequestAborted);
        };
        var desk = Desk();
        await desk.FanOutAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => desk.SendDueAsync(stop.Token));
        _receiver.Answer = _ => Task.CompletedTask;
        Assert.Equal(1, await Desk().SendDueAsync());
        Assert.Equal(2, _receiver.Messages.Count);
        Assert.Equal(_receiver.Messages[0].Headers["webhook-id"], _receiver.Messages[1].Headers["webhook-id"]);
        Assert.Equal(_receiver.Messages[0].Body, _receiver.Messages[1].Body);
    }

    [Fact]
    public async Task Gone_PausesTheWebhook()
    {
        await Webhooks.MakeAsync("Mill", _receiver.Url, All, "Ada");
        _receiver.Answer = context =>
        {
            context.Response.StatusCode = 410;
            return Task.CompletedTask;
        };
        await HappenAsync(TicketEventKind.Held);
        await HappenAsync(TicketEventKind.Finished);
        var desk = Desk();
        await desk.FanOutAsync();
        await desk.SendDueAsync();
        await desk.SendDueAsync();
        Assert.Single(_receiver.Messages);
        Assert.Contains("410", Assert.Single(await Webhooks.ListAsync()).PausedBecause, StringComparison.Ordinal);
        Assert.Equal(new DeliveryCounts(0, 2, 0), await Book.CountAsync());
        await HappenAsync(TicketEventKind.Late);
        await desk.FanOutAsync();
        Assert.Equal(0, (await Book.CountAsync()).Waiting);
    }

    [Theory]
    [InlineData(429, "7200", 7200)]
    [InlineData(503, "7200", 7200)]
    [InlineData(503, "99999999999999999999", 5)]
    [InlineData(429, "9999999", 86_400)]
    [InlineData(429, "-5", 5)]
    [InlineData(429, "soon", 5)]
    [InlineData(500, "7200", 5)]
    [InlineData(503, "Wed, 25 Nov 2026 11:00:00 GMT", 10_800)]
    [InlineData(503, "Wed, 25 Nov 2020 11:00:00 GMT", 5)]
    public async Task RetryAfter_IsHonouredUpToADay(int status, string after, int seconds)
    {
        await Webhooks.MakeAsync("Mill", _receiver.Url, All, "Ada");
        _receiver.Answer = context =>
        {
            (context.Response.StatusCode, context.Response.Headers.RetryAfter) = (status, after);
            return Task.CompletedTask;
        };
        await HappenAsync(TicketEventKind.Held);
        var desk = Desk();
        await desk.FanOutAsync();
        await desk.SendDueAsync();
        var wait = (Assert.Single(await Book.ListAsync(DeliveryState.Waiting)).NextUtc - _room.Now).TotalSeconds;
        Assert.InRange(wait, seconds, seconds + 0.5);
    }

    [Fact]
    public async Task OnlyChosenKinds_AndOnlyWhoIsTold_GetMessages()
    {
        await Webhooks.MakeAsync("Finished only", _receiver.Url + "/finished", [TicketEventKind.Finished, TicketEventKind.Cancelled], "Ada");
        await Webhooks.MakeAsync("Paused", _receiver.Url + "/paused", All, "Ada");
        await Webhooks.MakeAsync("Removed", _receiver.Url + "/removed", All, "Ada");
        var paused = (await Webhooks.ListAsync()).Single(w => w.Name == "Paused");
        await Webhooks.PauseAsync(paused.Id, "Ada");
        await Webhooks.RemoveAsync((await Webhooks.ListAsync()).Single(w => w.Name == "Removed").Id, "Ada");
        await HappenAsync(TicketEventKind.Held);
        await HappenAsync(TicketEventKind.Finished);
        var desk = Desk();
        await desk.FanOutAsync();
        var waiting = Assert.Single(await Book.ListAsync(DeliveryState.Waiting));
        Assert.Equal((_receiver.Url + "/finished", TicketEventKind.Finished), (waiting.To, waiting.Happened));
        await Webhooks.GoOnAsync(paused.Id, "Ada");
        await HappenAsync(TicketEventKind.Held);
        await desk.FanOutAsync();
        Assert.Equal(2, (await Book.CountAsync()).Waiting);
    }

    [Fact]
    public async Task SecretIsNowhereInTheDatabase_AndANewOneCountsAtOnce()
    {
        var first = await Webhooks.MakeAsync("Mill", _receiver.Url, All, "Ada");
        var webhook = Assert.Single(await Webhooks.ListAsync());
        Assert.DoesNotContain(first[6..], webhook.Secret, StringComparison.Ordinal);
        var second = await Webhooks.NewSecretAsync(webhook.Id, "Ada");
        Assert.NotEqual(first, second);
        Assert.True((await Webhooks.TestAsync(webhook.Id, "Ada")).Arrived);
        var test = _receiver.Messages.Single();
        Assert.Equal("plate-room.test", Read(test).Type);
        var at = DateTimeOffset.FromUnixTimeSeconds(long.Parse(test.Headers["webhook-timestamp"]!, System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(new StandardWebhook(second).Sign(test.Headers["webhook-id"], at, Encoding.UTF8.GetString(test.Body)), test.Headers["webhook-signature"]);
        await using var db = _room.CreateDbContext();
        var trail = await db.AuditEntries.ToListAsync();
        Assert.DoesNotContain(trail, e => $"{e.From}{e.To}".Contains("whsec_", StringComparison.Ordinal) || $"{e.From}{e.To}".Contains(webhook.Secret, StringComparison.Ordinal));
        Assert.Contains(trail, e => e is { By: "Ada", Record: "Webhook", Field: "(sent a test to)" });
    }

    [Fact]
    public async Task SecretOfAnotherMachine_IsAFailedTryThatSaysWhatToDo()
    {
        await Webhooks.MakeAsync("Mill", _receiver.Url, All, "Ada");
        await HappenAsync(TicketEventKind.Held);
        var others = new SecretKeeper(new EphemeralDataProtectionProvider(), NullLogger<SecretKeeper>.Instance);
        var post = new WebhookPost(_http, others, _room.Clock);
        var desk = new DeliveryDesk(_room, [new WebhookSender(_room, post, _room.Clock)], new RoomMetrics(), _room.Clock, NullLogger<DeliveryDesk>.Instance);
        await desk.FanOutAsync();
        await desk.SendDueAsync();
        Assert.Contains("make a new secret", Assert.Single(await Book.ListAsync(DeliveryState.Waiting)).Answer, StringComparison.Ordinal);
        Assert.Empty(_receiver.Messages);
    }

    [Theory]
    [InlineData("", "https://mis.example/", true, "Give the webhook a name")]
    [InlineData("Mill", "mis.example", true, "begins with https://")]
    [InlineData("Mill", "http://mis.example/", true, "read by others")]
    [InlineData("Mill", "https://169.254.169.254/latest/meta-data", true, "private network")]
    [InlineData("Mill", "https://mis.example/", false, "Tick at least one")]
    public async Task WrongWebhook_IsRefusedInWords(string name, string url, bool kinds, string why)
    {
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => Webhooks.MakeAsync(name, url, kinds ? All : [TicketEventKind.StageDone], "Ada"));
        Assert.Contains(why, refused.Message, StringComparison.Ordinal);
        Assert.Empty(await Webhooks.ListAsync());
    }

    [Fact]
    public async Task FiftyWebhooks_AreEnough()
    {
        for (var i = 0; i < WebhookDesk.Most; i++)
        {
            await Webhooks.MakeAsync($"Mill {i}", _receiver.Url, All, "Ada");
        }

        await Assert.ThrowsAsync<PlateRoomException>(() => Webhooks.MakeAsync("One more", _receiver.Url, All, "Ada"));
        await Webhooks.RemoveAsync((await Webhooks.ListAsync())[0].Id, "Ada");
        await Webhooks.MakeAsync("One more", _receiver.Url, All, "Ada");
        await Assert.ThrowsAsync<PlateRoomException>(() => Webhooks.PauseAsync(4711, "Ada"));
    }

    private static CloudEvent Read(Receiver.Message message) => new JsonEventFormatter().DecodeStructuredModeMessage(message.Body, new ContentType(message.ContentType), null);

    private static string? Text(JsonElement data, string name) => data.GetProperty(name).GetString();

    private DeliveryDesk Desk(TimeProvider? signs = null) => new(
        _room, [new WebhookSender(_room, new WebhookPost(_http, _secrets, signs ?? _room.Clock), _room.Clock)], new RoomMetrics(), _room.Clock, NullLogger<DeliveryDesk>.Instance);

    private async Task HappenAsync(TicketEventKind kind, DateTime? forUtc = null, string why = "", Station? station = null)
    {
        await using var db = _room.CreateDbContext();
        db.TicketEvents.Add(new TicketEvent { TicketId = _ticket.Order.Id, Kind = kind, AtUtc = _room.Now, By = "test", ForUtc = forUtc, Why = why, Station = station });
        await db.SaveChangesAsync();
    }
}
