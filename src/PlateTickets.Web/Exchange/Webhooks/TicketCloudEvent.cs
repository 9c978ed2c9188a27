using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using CloudNative.CloudEvents;
using CloudNative.CloudEvents.SystemTextJson;
using PlateTickets.Process;
using PlateTickets.Tickets.Exchange.Events;
using PlateTickets.Tickets.Orders;

namespace PlateTickets.Web.Exchange.Webhooks;

/// <summary>What a message says of a ticket.</summary>
/// <param name="Ticket">Its number.</param>
/// <param name="Title">The job.</param>
/// <param name="Customer">Name.</param>
/// <param name="CustomerReference">What the customer calls it.</param>
/// <param name="Due">As it was asked for.</param>
/// <param name="Promise">Done by then with 95 % confidence; where the event is about that.</param>
/// <param name="State">Of the ticket, at the moment of sending.</param>
/// <param name="Reason">Of a hold or cancellation; the defect of a plate.</param>
/// <param name="Station">Where a plate's defect was found.</param>
internal sealed record TicketNews(
    string Ticket, string Title, string Customer, string? CustomerReference, DateTime Due, DateTime? Promise, TicketState State, string? Reason, Station? Station);

/// <summary>Words an event as a CloudEvent 1.0 in JSON, structured mode.</summary>
internal static class TicketCloudEvent
{
    private static readonly Uri Source = new("/plate-room", UriKind.Relative);

    private static readonly JsonEventFormatter Formatter = new(
        new JsonSerializerOptions(JsonSerializerDefaults.Web)
        {
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
            // It is read by programs and never stands in a page: names stay legible.
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        },
        default);

    /// <summary>The kinds that a webhook may be told of, in the order of a ticket's life, with their words.</summary>
    public static IReadOnlyList<(TicketEventKind Kind, string Type, string Words)> Kinds { get; } =
    [
        (TicketEventKind.Entered, "plate-room.ticket.entered", "order entered"),
        (TicketEventKind.Changed, "plate-room.ticket.changed", "due time or copies changed"),
        (TicketEventKind.Promised, "plate-room.ticket.promised", "promised"),
        (TicketEventKind.AtRisk, "plate-room.ticket.at-risk", "at risk"),
        (TicketEventKind.Late, "plate-room.ticket.late", "late"),
        (TicketEventKind.OnTimeAgain, "plate-room.ticket.on-time-again", "on time again"),
        (TicketEventKind.Held, "plate-room.ticket.held", "on hold"),
        (TicketEventKind.GoingOn, "plate-room.ticket.going-on", "going on"),
        (TicketEventKind.PlateRemade, "plate-room.plate.remade", "plate made again"),
        (TicketEventKind.Finished, "plate-room.ticket.finished", "finished"),
        (TicketEventKind.Cancelled, "plate-room.ticket.cancelled", "cancelled"),
    ];

    public static string Words(TicketEventKind kind) => Kinds.FirstOrDefault(k => k.Kind == kind).Words ?? (kind == TicketEventKind.StageStarted ? "stage started" : "stage done");

    /// <param name="happened">The event.</param>
    /// <param name="order">With its customer and ticket.</param>
    public static (byte[] Body, string ContentType) Of(TicketEvent happened, Order order) => Encode(new CloudEvent(CloudEventsSpecVersion.V1_0)
    {
        Id = $"evt-{UniqueId.Of(happened.Id, happened.AtUtc)}",
        Type = Kinds.Single(k => k.Kind == happened.Kind).Type,
        Subject = order.Number,
        Time = happened.AtUtc,
        Data = new TicketNews(
            order.Number, order.Title, order.Customer!.Name, order.CustomerReference.Length == 0 ? null : order.CustomerReference,
            happened.Kind is TicketEventKind.Entered or TicketEventKind.Changed && happened.ForUtc is { } due ? due : order.DueUtc,
            happened.Kind is TicketEventKind.Promised or TicketEventKind.AtRisk or TicketEventKind.Late or TicketEventKind.OnTimeAgain ? happened.ForUtc : null,
            order.Ticket!.State, happened.Why.Length == 0 ? null : happened.Why, happened.Station),
    });

    /// <summary>A message that tells of nothing, to see whether it arrives.</summary>
    public static (byte[] Body, string ContentType) Test(string id, DateTimeOffset at) => Encode(new CloudEvent(CloudEventsSpecVersion.V1_0)
    {
        Id = id,
        Type = "plate-room.test",
        Time = at,
        Data = new { message = "This is a test. Nothing happened to a ticket." },
    });

    private static (byte[] Body, string ContentType) Encode(CloudEvent message)
    {
        message.Source = Source;
        message.DataContentType = "application/json";
        return (Formatter.EncodeStructuredModeMessage(message, out var type).ToArray(), type.ToString());
    }
}
