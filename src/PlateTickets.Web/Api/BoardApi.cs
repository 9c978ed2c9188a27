using Microsoft.AspNetCore.Http.HttpResults;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

internal static class BoardApi
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/board", NowAsync).Needs(Right.Look)
        .WithSummary("Every open sheet: where it is, when it is planned to be done, and whether that is late");

    private static async Task<Ok<BoardResponse>> NowAsync(BoardState board, RoomCatalog rooms, TimeProvider clock, CancellationToken cancel)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var room = await rooms.GetAsync(cancel);
        return TypedResults.Ok(new BoardResponse(
            now,
            [.. board.Now.Sheets.Values.Where(s => s.IsOpen).OrderBy(s => s.DueUtc).ThenBy(s => s.Id).Select(s => new BoardSheetResponse(
                s.Number, s.State, s.Stage?.Station.Title(), room.EquipmentById(s.Stage?.EquipmentId)?.Name,
                [.. s.Tickets.Select(t => t.Number)], [.. s.Tickets.Select(t => t.Customer).Distinct()], s.Colours, s.DueUtc, s.PlannedDoneUtc,
                s.Stage?.DueByUtc, s.Slack?.TotalMinutes, LatenessRules.Of(s, now).ToString(), s.LateChance, s.Why.Length > 0 ? s.Why : null))]));
    }
}
