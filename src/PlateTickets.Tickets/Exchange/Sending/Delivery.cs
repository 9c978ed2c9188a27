using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Events;

namespace PlateTickets.Tickets.Exchange.Sending;

public enum DeliveryKind
{
    /// <summary>A CloudEvent to an address of another program.</summary>
    Webhook = 1,

    /// <summary>A mail to the customer's contact.</summary>
    Mail = 2,

    /// <summary>An XJMF SignalStatus or SignalQueueStatus to a subscriber.</summary>
    Signal = 3,

    /// <summary>The finished XJDF back to its sender (XJMF ReturnQueueEntry).</summary>
    Return = 4,
}

public enum DeliveryState
{
    Waiting = 1,
    Sent = 2,

    /// <summary>Given up after the last try; a person may send it again.</summary>
    Dead = 3,
}

/// <summary>One message on its way out: one event to one receiver. It is tried again until it arrives or is given up.</summary>
public sealed class Delivery
{
    public long Id { get; set; }

    public DeliveryKind Kind { get; set; }

    public long EventId { get; set; }

    public TicketEvent? Event { get; set; }

    /// <summary>The webhook, the subscription or the document, by kind; 0 for a mail.</summary>
    public int ReceiverId { get; set; }

    /// <summary>Address, for people.</summary>
    public required string To { get; set; }

    public DeliveryState State { get; set; } = DeliveryState.Waiting;

    public int Attempts { get; set; }

    /// <summary>The next try is not before.</summary>
    public DateTime NextUtc { get; set; }

    public DateTime MadeUtc { get; set; }

    public DateTime? SentUtc { get; set; }

    /// <summary>What the receiver answered last, or why it could not be reached; a sentence.</summary>
    public string Answer { get; set; } = "";
}

/// <summary>An address of another program that wants to be told of some kinds of events.</summary>
public sealed class Webhook : IAudited
{
    public int Id { get; set; }

    public required string Name { get; set; }

    public required string Url { get; set; }

    /// <summary>What signs the messages (whsec_…), encrypted with the program's keys.</summary>
    [Secret]
    public required string Secret { get; set; }

    /// <summary>The kinds that are sent, by their names, parted by blanks.</summary>
    public required string Kinds { get; set; }

    public DateTime MadeUtc { get; set; }

    public required string MadeBy { get; set; }

    /// <summary>Why nothing is sent for now; empty when it is.</summary>
    public string PausedBecause { get; set; } = "";

    public DateTime? RemovedUtc { get; set; }

    public string AuditKey => Name;

    public IReadOnlyList<TicketEventKind> KindList => [.. Kinds.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Enum.Parse<TicketEventKind>)];
}

/// <summary>A persistent channel: another program subscribed to signals by an XJMF query.</summary>
public sealed class SignalChannel : IAudited
{
    public int Id { get; set; }

    /// <summary>Who subscribed: the key's name.</summary>
    public required string Sender { get; set; }

    /// <summary>"Status" or "QueueStatus".</summary>
    public required string MessageType { get; set; }

    public required string Url { get; set; }

    /// <summary>Header/@ID of the query: signals refer to it.</summary>
    public required string QueryId { get; set; }

    /// <summary>Sent again until it arrives; otherwise once.</summary>
    public bool Reliable { get; set; }

    /// <summary>Only this job; empty for all.</summary>
    public string JobId { get; set; } = "";

    public DateTime MadeUtc { get; set; }

    public DateTime? EndedUtc { get; set; }

    public string ChannelId => $"CH{Id}";

    public string AuditKey => $"{MessageType} to {Url}";
}
