using Microsoft.AspNetCore.Http.HttpResults;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

internal static class PromisesApi
{
    private const double LongestMm = 5000;

    public static void Map(IEndpointRouteBuilder api) => api.MapPost("/promises", AskAsync).Needs(Right.EnterOrders)
        .WithSummary("When an order would be done, before it is entered; nothing is saved")
        .WithDescription("The newest plan is simulated with the times that work really takes in this room. In turn the order makes nobody later; as a rush it goes first, and the tickets that it would make late are named.")
        .ProducesProblem(StatusCodes.Status409Conflict)
        .ProducesProblem(StatusCodes.Status422UnprocessableEntity);

    private static async Task<Ok<PromiseResponse>> AskAsync(
        PromiseRequest request, PromiseDesk desk, BoardState board, RoomCatalog rooms, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var material = room.Materials.Values.FirstOrDefault(m => m.Name.Equals(request.Material.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? throw Refused(nameof(NewOrder.MaterialId), $"There is no material “{request.Material}”. Materials: {string.Join(", ", room.Materials.Values.Select(m => m.Name))}.");
        var sheets = (request.Sheets ?? []).Select(s => Of(s, room)).ToList();
        var promise = await desk.AskAsync(material.Id, sheets, cancel);
        var numbers = board.Now.Sheets.Values.SelectMany(s => s.Tickets).DistinctBy(t => t.Id).ToDictionary(t => t.Id, t => t.Number);
        return TypedResults.Ok(new PromiseResponse(promise.Sheets, Times(promise.InTurn, numbers), Times(promise.Rush, numbers)));
    }

    private static AskedSheet Of(PromiseSheet sheet, Room room)
    {
        if (sheet.WidthMm is not (> 0 and <= LongestMm) || sheet.LengthMm is not (> 0 and <= LongestMm) || sheet.Plates is < 1 or > 1000)
        {
            throw Refused("Sheets", $"A sheet is above 0 and up to {LongestMm:0} mm wide and long, and carries 1 to 1000 plates.");
        }

        var (width, length) = ((int)Math.Round(sheet.WidthMm * 1000), (int)Math.Round(sheet.LengthMm * 1000));
        return new AskedSheet(width, length, Math.Max(1, width - (2 * room.Site.SideMarginUm)), sheet.Plates);
    }

    private static OrderRefusedException Refused(string field, string sentence) => new(new Dictionary<string, string> { [field] = sentence });

    private static PromiseTimes Times(Promise promise, Dictionary<int, string> numbers) => new(
        promise.PlannedUtc, promise.Finish.Half, promise.Finish.Eighty, promise.Finish.NinetyFive,
        [.. promise.Pushed.Select(p => new PushedResponse(numbers.GetValueOrDefault(p.TicketId, ""), p.DueUtc, p.BeforeUtc, p.AfterUtc))]);
}
