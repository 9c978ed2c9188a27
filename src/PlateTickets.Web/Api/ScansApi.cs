using Microsoft.AspNetCore.Http.HttpResults;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

internal static class ScansApi
{
    public static void Map(IEndpointRouteBuilder api) => api.MapPost("/scans", RecordAsync).Needs(Right.WorkStations)
        .WithSummary("Record one reading of a traveler at a machine")
        .WithDescription("The same id again gives the first answer again. A reading that is refused is recorded too; the problem's detail is the sentence for the person at the station, its outcome the reason.")
        .ProducesProblem(StatusCodes.Status404NotFound)
        .ProducesProblem(StatusCodes.Status409Conflict);

    private static async Task<Results<Ok<ScanResponse>, ProblemHttpResult>> RecordAsync(ScanBody body, ScanDesk desk, CancellationToken cancel)
    {
        if (body.Id == Guid.Empty)
        {
            throw new BadHttpRequestException("A scan needs an id of its own (a GUID, not all zeros).");
        }

        if (!Enum.IsDefined(body.Action))
        {
            throw new BadHttpRequestException("The action must be Next, Start or Finish.");
        }

        if (body.By.Trim().Length is 0 or > 60)
        {
            throw new BadHttpRequestException("Say who scanned: 1 to 60 characters in “by”.");
        }

        var ticked = (body.Ticked ?? []).Aggregate(CheckPoint.None, (sum, point) => sum | point);
        if ((ticked & ~CheckLists.All) != CheckPoint.None)
        {
            throw new BadHttpRequestException("“ticked” holds a number that is no point of a check list: name the points.");
        }

        var reply = await desk.RecordAsync(
            new ScanRequest(body.Id, body.Code, body.Equipment, body.Action, body.By.Trim(), body.ReadAt?.UtcDateTime, body.Confirmed)
            {
                SentUtc = body.SentAt?.UtcDateTime,
                Of = body.Of ?? "",
                Ticked = ticked,
                Offline = body.Offline,
            },
            cancel);
        return reply.Accepted
            ? TypedResults.Ok(new ScanResponse(reply.Id, reply.Outcome, reply.Sentence, reply.SheetNumber!, reply.Repeated, reply.ClockBehindSeconds))
            : TypedResults.Problem(
                reply.Sentence,
                statusCode: StatusCodes.Status409Conflict,
                title: "The scan was refused",
                extensions: new Dictionary<string, object?>
                {
                    ["code"] = "scan-refused",
                    ["outcome"] = reply.Outcome,
                    ["scan"] = reply.Id,
                    ["sheet"] = reply.SheetNumber,
                    ["repeated"] = reply.Repeated,
                    ["clockBehindSeconds"] = reply.ClockBehindSeconds,
                });
    }
}
