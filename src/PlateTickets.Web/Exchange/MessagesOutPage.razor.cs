using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.Options;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Exchange.Mail;
using PlateTickets.Web.Exchange.Webhooks;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Exchange;

/// <summary>Who is told what happens to tickets, and which messages wait, were given up or arrived.</summary>
public sealed partial class MessagesOutPage
{
    private static readonly (DeliveryState State, string Slug, string Words)[] Tabs =
        [(DeliveryState.Waiting, "waiting", "Waiting"), (DeliveryState.Dead, "given-up", "Given up"), (DeliveryState.Sent, "sent", "Sent")];

    private readonly HashSet<TicketEventKind> _kinds = [];
    private IReadOnlyList<Webhook>? _webhooks;
    private IReadOnlyList<DeliveryLine> _lines = [];
    private DeliveryCounts? _counts;
    private TimeZoneInfo? _zone;
    private string _name = "";
    private string _url = "";
    private string _secret = "";
    private string _secretOf = "";
    private string _told = "";
    private string _refusal = "";
    private int _removing;
    private bool _busy;

    /// <summary>Which messages are shown; the waiting ones when it says nothing known.</summary>
    [SupplyParameterFromQuery(Name = "show")]
    public string? Show { get; set; }

    [Inject]
    public required WebhookDesk Desk { get; set; }

    [Inject]
    public required DeliveryBook Book { get; set; }

    [Inject]
    public required IOptions<ExchangeOptions> Settings { get; set; }

    [Inject]
    public required IOptions<MailOptions> Mail { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required Viewer Viewer { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    private DeliveryState State => Tabs.FirstOrDefault(t => t.Slug == Show, Tabs[0]).State;

    private string NothingText => State switch
    {
        DeliveryState.Waiting => "No message waits.",
        DeliveryState.Dead => "No message was given up.",
        _ => "No message was sent in the last 30 days.",
    };

    private string TimeText => State switch
    {
        DeliveryState.Waiting => "Next try",
        DeliveryState.Dead => "Given up",
        _ => "Arrived",
    };

    private IEnumerable<(DeliveryKind Kind, int Id, string To)> Receivers => _lines.Select(l => (l.Kind, l.ReceiverId, l.To)).Distinct();

    protected override async Task OnParametersSetAsync()
    {
        try
        {
            Viewer.Require(Right.KeepProgram);
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
            return;
        }

        _zone = (await Rooms.GetAsync()).Zone;
        await ReadAsync();
    }

    private async Task ReadAsync()
    {
        (_webhooks, _counts, _lines) = (await Desk.ListAsync(), await Book.CountAsync(), await Book.ListAsync(State));
    }

    private int Count(DeliveryState state) => state switch
    {
        DeliveryState.Waiting => _counts!.Waiting,
        DeliveryState.Dead => _counts!.Dead,
        _ => _counts!.Sent,
    };

    private string Near(DateTime utc) => SiteClock.Near(utc, Clock.GetUtcNow().UtcDateTime, _zone!);

    private string Receiver(DeliveryLine line) => line.Kind switch
    {
        DeliveryKind.Webhook => _webhooks!.FirstOrDefault(w => w.Id == line.ReceiverId)?.Name ?? "a removed webhook",
        DeliveryKind.Mail => "customer",
        DeliveryKind.Signal => "subscribed program",
        _ => "sender of the order",
    };

    private void Turn(TicketEventKind kind)
    {
        if (!_kinds.Add(kind))
        {
            _kinds.Remove(kind);
        }
    }

    private void SecretCopied() => (_secret, _secretOf) = ("", "");

    private Task MakeAsync() => DoAsync(async () =>
    {
        var name = _name.Trim();
        (_secret, _secretOf) = (await Desk.MakeAsync(name, _url, _kinds, Viewer.Name), name);
        (_name, _url) = ("", "");
        _kinds.Clear();
        return "";
    });

    private Task NewSecretAsync(Webhook webhook) => DoAsync(async () =>
    {
        (_secret, _secretOf) = (await Desk.NewSecretAsync(webhook.Id, Viewer.Name), webhook.Name);
        return "";
    });

    private Task TestAsync(Webhook webhook) => DoAsync(async () =>
    {
        var answer = await Desk.TestAsync(webhook.Id, Viewer.Name);
        return answer.Arrived ? $"The test arrived at {webhook.Name}. {answer.Sentence}" : throw new PlateRoomException($"The test did not arrive at {webhook.Name}. {answer.Sentence}");
    });

    private Task PauseAsync(Webhook webhook, bool pause) => DoAsync(async () =>
    {
        await (pause ? Desk.PauseAsync(webhook.Id, Viewer.Name) : Desk.GoOnAsync(webhook.Id, Viewer.Name));
        return pause ? $"{webhook.Name} is told nothing until you let it go on. What waits for it is given up and can be sent again." : $"{webhook.Name} is told again of what happens from now on.";
    });

    private Task RemoveAsync(Webhook webhook) => DoAsync(async () =>
    {
        await Desk.RemoveAsync(webhook.Id, Viewer.Name);
        _removing = 0;
        return $"{webhook.Name} is told nothing more.";
    });

    private Task SendAgainAsync(DeliveryLine line) => DoAsync(async () =>
    {
        await Book.SendAgainAsync(line.Id, Viewer.Name);
        return "The message waits again and is sent at once.";
    });

    private Task SendAllAgainAsync(DeliveryKind kind, int receiver, string to) => DoAsync(async () =>
        await Book.SendAllAgainAsync(kind, receiver, to, Viewer.Name) is var count and not 1 ? $"{count} messages to {to} wait again." : $"1 message to {to} waits again.");

    private async Task DoAsync(Func<Task<string>> step)
    {
        (_told, _refusal, _busy) = ("", "", true);
        try
        {
            Viewer.Require(Right.KeepProgram);
            _told = await step();
        }
        catch (PlateRoomException refused)
        {
            _refusal = refused.Message;
        }
        finally
        {
            _busy = false;
        }

        await ReadAsync();
    }
}
