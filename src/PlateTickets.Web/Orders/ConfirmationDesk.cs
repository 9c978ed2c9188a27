using PlateTickets.Process.Units;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Travelers;

namespace PlateTickets.Web.Orders;

/// <summary>Fills the confirmation of an order from the records and the newest plan.</summary>
public sealed class ConfirmationDesk(OrderQueries orders, RoomCatalog rooms, PlanBook plan, TimeProvider clock)
{
    /// <summary>The PDF, or null when there is no such ticket.</summary>
    public async Task<byte[]?> PrintAsync(string number, TravelerPaper paper, CancellationToken cancel) =>
        await orders.FindAsync(number, cancel) is { } view ? ConfirmationPdf.Render(Content(view, await rooms.GetAsync(cancel)), paper) : null;

    private ConfirmationContent Content(TicketView view, Room room)
    {
        var (order, units) = (view.Order, room.Site.Units);
        var now = clock.GetUtcNow().UtcDateTime;
        string At(DateTime utc) => SiteClock.MomentWithYear(utc, room.Zone);
        var colours = view.Ticket.Separations.Select(s => new ConfirmedColour(
            s.Colour, ColourNames.SwatchRgb(s.Colour), units.Size(s.WidthUm / 1000.0, s.LengthUm / 1000.0), order.Copies)).ToList();
        return new ConfirmationContent(
            room.Site.Name, order.Number, TrackingNumber.ForPeople(order.Number),
            [
                ("Customer", order.Customer!.Name), ("Job", order.Title), ("Press", $"{order.Press!.Name}, repeat {units.Show(order.RepeatUm / 1000.0)}"),
                ("Material", order.Material!.Label(units)), ("Plates", $"{view.Plates.Count()}, {order.Copies} of each colour"), ("Entered", $"{At(order.EnteredUtc)} by {order.EnteredBy}"),
            ],
            At(order.DueUtc), Promise(view, At), colours,
            [
                .. colours.Count == 0 ? ["The separations have not arrived yet. The time above can be told when they are here."] : Array.Empty<string>(),
                .. view.Ticket.State == TicketState.Cancelled ? [$"This order was cancelled: {view.Ticket.CancelledBecause}."] : Array.Empty<string>(),
                .. room.Site.IsDemo ? ["This is an invented plate room: nothing here was ordered or will be made."] : Array.Empty<string>(),
            ],
            At(now));
    }

    private string Promise(TicketView view, Func<DateTime, string> at)
    {
        if (view.Ticket.State == TicketState.Cancelled)
        {
            return "Cancelled.";
        }

        if (view.Ticket.DoneUtc is { } done)
        {
            return $"Done {at(done)}.";
        }

        return plan.Now?.Outlooks.GetValueOrDefault(view.Order.Id) is { } outlook && view.Unlaid == 0
            ? $"By the plan of today all plates are done by {at(PromiseDesk.Rounded(outlook.Finish.NinetyFive))}, with 95\u00a0% confidence."
            : view.PlannedDoneUtc is { } planned ? $"By the plan of today all plates are done about {at(PromiseDesk.Rounded(planned))}." : "It is not planned yet.";
    }
}
