using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Web.Api;

internal static class TicketMapping
{
    public static TicketResponse Of(TicketView view, DateTime nowUtc, double? lateChance)
    {
        var order = view.Order;
        var ticket = view.Ticket;
        var on = view.Sheets.SelectMany(s => s.Placements.Select(p => (p.PlateId, s.Number))).ToDictionary(p => p.PlateId, p => p.Number);
        var separations = ticket.Separations.ToDictionary(s => s.Id);
        return new TicketResponse(
            order.Number, order.Customer!.Name, order.Title, order.Press!.Name, order.Material!.Name, order.RepeatUm / 1000.0, order.DueUtc,
            order.Copies, ticket.State.ToString(), LatenessRules.Of(view, nowUtc, lateChance).ToString(), lateChance, view.PlannedDoneUtc, ticket.DoneUtc,
            [.. ticket.Plates.Select(p => Of(p, separations[p.SeparationId], on.GetValueOrDefault(p.Id)))],
            [.. view.Sheets.Select(Of)]);
    }

    public static string? Preview(Separation separation) => separation.ImageHash.Length == 0 ? null : Urls.Preview(separation.Id, separation.ImageHash);

    private static PlateResponse Of(Plate plate, Separation separation, string? sheet) => new(
        separation.Colour, plate.Copy, plate.WidthUm / 1000.0, plate.LengthUm / 1000.0, sheet, separation.Coverage, separation.InkCm2, Preview(separation));

    public static SheetResponse Of(Sheet sheet) => new(
        sheet.Number, sheet.State.ToString(), sheet.CurrentStation?.Title(), sheet.WidthUm / 1000.0, sheet.LengthUm / 1000.0,
        $"{sheet.Material!.Name}, revision {sheet.RecipeRevision!.Number}", $"/api/v1/sheets/{sheet.Number}/traveler.pdf",
        [.. sheet.Placements.Select(p => new PlacementResponse(
            p.Mark, p.Plate!.Separation!.Colour, p.XUm / 1000.0, p.YUm / 1000.0, p.WidthUm / 1000.0, p.LengthUm / 1000.0, p.Rotated))],
        [.. sheet.Stages.OrderBy(s => s.Station).Select(s => new StageResponse(
            s.Station.Title(), s.State.ToString(), s.Equipment?.Name, s.LoadSeconds, s.RunSeconds, s.UnloadSeconds, s.Explanation,
            s.PlannedStartUtc, s.PlannedFinishUtc, s.DueByUtc, (s.DueByUtc - s.PlannedFinishUtc)?.TotalMinutes, s.StartedUtc, s.FinishedUtc))]);
}
