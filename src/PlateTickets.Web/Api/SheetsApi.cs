using Microsoft.AspNetCore.Http.HttpResults;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Travelers;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Sheets;

namespace PlateTickets.Web.Api;

internal static class SheetsApi
{
    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/sheets/{number}/traveler.pdf", TravelerAsync).Needs(Right.Look)
            .WithSummary("The traveler of a sheet as PDF; paper=a4 or letter")
            .Produces(StatusCodes.Status200OK, contentType: "application/pdf")
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/layouts/{id:int}/travelers.pdf", LayoutTravelersAsync).Needs(Right.Look)
            .WithSummary("The travelers of all sheets of a released layout as one PDF; paper=a4 or letter")
            .Produces(StatusCodes.Status200OK, contentType: "application/pdf")
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/equipment/{slug}/drawers.pdf", DrawersAsync).Needs(Right.Look)
            .WithSummary("Labels with the codes of a dryer's drawers as PDF; paper=a4 or letter")
            .Produces(StatusCodes.Status200OK, contentType: "application/pdf")
            .ProducesProblem(StatusCodes.Status404NotFound);
    }

    private static async Task<Results<FileContentHttpResult, ProblemHttpResult>> TravelerAsync(
        string number, TravelerDesk desk, HttpResponse response, CancellationToken cancel, string paper = "a4")
    {
        var size = PaperOf(paper);
        var sheet = OrdersApi.NumberOf(number, NumberKind.Sheet);
        // Every print is counted, so an old copy must not come out of a cache.
        response.Headers.CacheControl = "no-store";
        response.Headers.ContentDisposition = $"inline; filename=\"traveler-{sheet}.pdf\"";
        return await desk.PrintAsync(sheet, size, cancel) is { } pdf
            ? TypedResults.File(pdf, "application/pdf")
            : TypedResults.Problem($"There is no sheet {number}.", statusCode: StatusCodes.Status404NotFound);
    }

    private static async Task<Results<FileContentHttpResult, ProblemHttpResult>> DrawersAsync(
        string slug, TravelerDesk desk, HttpResponse response, CancellationToken cancel, string paper = "a4")
    {
        response.Headers.ContentDisposition = $"inline; filename=\"drawers.pdf\"";
        return await desk.PrintDrawersAsync(slug, PaperOf(paper), cancel) is { } pdf
            ? TypedResults.File(pdf, "application/pdf")
            : TypedResults.Problem($"This room has no equipment “{slug}” with drawers.", statusCode: StatusCodes.Status404NotFound);
    }

    private static async Task<Results<FileContentHttpResult, ProblemHttpResult>> LayoutTravelersAsync(
        int id, TravelerDesk desk, HttpResponse response, CancellationToken cancel, string paper = "a4")
    {
        response.Headers.CacheControl = "no-store";
        response.Headers.ContentDisposition = $"inline; filename=\"travelers-of-layout-{id}.pdf\"";
        return await desk.PrintLayoutAsync(id, PaperOf(paper), cancel) is { } pdf
            ? TypedResults.File(pdf, "application/pdf")
            : TypedResults.Problem($"There is no layout {id}, or it was undone.", statusCode: StatusCodes.Status404NotFound);
    }

    internal static TravelerPaper PaperOf(string paper) => Enum.TryParse<TravelerPaper>(paper, ignoreCase: true, out var size) && Enum.IsDefined(size)
        ? size
        : throw new BadHttpRequestException($"There is no paper “{paper}”: choose a4 or letter.");
}
