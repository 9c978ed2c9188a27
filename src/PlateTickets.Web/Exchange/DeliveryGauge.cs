using PlateTickets.Tickets;

namespace PlateTickets.Web.Exchange;

/// <summary>How many messages wait, for whoever collects figures; known on the node that sends.</summary>
internal sealed class DeliveryGauge
{
    public DeliveryGauge(RoomMetrics metrics) =>
        metrics.Meter.CreateObservableGauge("plateroom.deliveries.waiting", () => Waiting is { } waiting ? waiting : double.NaN, "{delivery}", "Messages that wait to be sent.");

    public int? Waiting { get; set; }
}
