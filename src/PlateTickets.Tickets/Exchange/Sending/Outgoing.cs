using PlateTickets.Tickets.Exchange.Events;

namespace PlateTickets.Tickets.Exchange.Sending;

/// <summary>How a try to send went.</summary>
/// <param name="Arrived">The receiver has it: never sent again.</param>
/// <param name="Answer">What the receiver said, or why it could not be reached; a sentence.</param>
/// <param name="Final">Another try cannot help: it is given up at once.</param>
/// <param name="NotBefore">How long the receiver asks to be left alone; the next try waits at least as long.</param>
public sealed record SendResult(bool Arrived, string Answer, bool Final = false, TimeSpan? NotBefore = null);

/// <summary>Makes the deliveries of an event and sends them; one for each <see cref="DeliveryKind"/>.</summary>
public interface IDeliverySender
{
    DeliveryKind Kind { get; }

    /// <summary>The receivers of each of these events; added to the context, not saved.</summary>
    Task MakeAsync(PlateRoomDb db, IReadOnlyList<TicketEvent> events, DateTime nowUtc, CancellationToken cancel);

    /// <summary>Sends once. What goes wrong on the way is a result; an exception is a defect.</summary>
    Task<SendResult> SendAsync(Delivery delivery, CancellationToken cancel);

    /// <summary>Must deliveries to one receiver arrive in the order of their events? Then a later one waits for an earlier one that is tried again.</summary>
    bool InOrder => false;

    /// <summary>How long to wait after a try; null when no further try is made.</summary>
    TimeSpan? WaitAfter(Delivery delivery);
}

/// <summary>Encrypts what lies in the database and must be read again, with the program's keys.</summary>
public interface ISecretKeeper
{
    string Protect(string secret);

    /// <summary>Null when it was encrypted with keys that are not here.</summary>
    string? Read(string kept);
}
