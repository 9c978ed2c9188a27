using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Diagnostics;
using PlateTickets.Process;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Exchange.Status;

/// <summary>What a customer sees of an order under its secret address; made by a request, without a circuit.</summary>
public sealed partial class OrderStatusPage
{
    private const int LongestToken = 100;

    private OrderStatus? _status;
    private TimeZoneInfo _zone = TimeZoneInfo.Utc;
    private string _zoneName = "";

    [Parameter]
    public string Token { get; set; } = "";

    [CascadingParameter]
    public required HttpContext Context { get; set; }

    [Inject]
    public required StatusLinks Links { get; set; }

    [Inject]
    public required RoomCatalog Rooms { get; set; }

    [Inject]
    public required TimeProvider Clock { get; set; }

    protected override async Task OnInitializedAsync()
    {
        // The address is the secret: it must not be kept by what lies between, found by search, or passed on by a link.
        Context.Response.Headers.CacheControl = "private, no-store";
        Context.Response.Headers["Referrer-Policy"] = "no-referrer";
        Context.Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
        _status = Token.Length > LongestToken ? null : await Links.ShowAsync(Token, Context.RequestAborted);
        if (_status is null)
        {
            // Not 404: for that the framework draws no page of ours. Never-was and ended look the same.
            Context.Response.StatusCode = StatusCodes.Status410Gone;
            // The page says more than the program's own one for addresses that are not there.
            if (Context.Features.Get<IStatusCodePagesFeature>() is { } otherPages)
            {
                otherPages.Enabled = false;
            }

            return;
        }

        _zone = (await Rooms.GetAsync(Context.RequestAborted)).Zone;
        var offset = _zone.GetUtcOffset(Clock.GetUtcNow());
        _zoneName = offset == TimeSpan.Zero ? "UTC" : $"UTC{(offset < TimeSpan.Zero ? "−" : "+")}{offset:hh\\:mm}";
    }

    private string Moment(DateTime utc) => SiteClock.MomentWithYear(utc, _zone);

    private static string StateText(OrderStatus status) => status switch
    {
        { State: TicketState.Cancelled } => "The order is cancelled.",
        { State: TicketState.Done } => "The plates are finished.",
        { IsOnHold: true } => "The order is on hold.",
        { SeparationsMissing: true } => "The order is in; its files are awaited.",
        { State: TicketState.InWork, Station: { } station } => $"The plates are being made: {station.Title().ToLowerInvariant()}.",
        { State: TicketState.InWork } => "The plates are being made.",
        _ => "The order is in and waits for its turn.",
    };

    private static List<(string Step, string Name)> Steps(OrderStatus status)
    {
        if (status.State == TicketState.Cancelled)
        {
            return [];
        }

        var at = status switch
        {
            { State: TicketState.Done } => 4,
            { State: TicketState.InWork } => 2,
            { SeparationsMissing: true } => 0,
            _ => 1,
        };
        string[] names = ["Files", "Planned", "Being made", "Finished"];
        return [.. names.Select((name, i) => (i < at ? "past" : i == at ? "now" : "next", name))];
    }
}
