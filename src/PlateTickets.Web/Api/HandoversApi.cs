using Microsoft.AspNetCore.Http.HttpResults;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Handovers;

namespace PlateTickets.Web.Api;

internal static class HandoversApi
{
    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/handovers/{id:int}/handover.pdf", PdfAsync).Needs(Right.Look)
        .WithSummary("A closed handover as PDF; paper=a4 or letter")
        .Produces(StatusCodes.Status200OK, contentType: "application/pdf")
        .ProducesProblem(StatusCodes.Status404NotFound);

    private static async Task<Results<FileContentHttpResult, ProblemHttpResult>> PdfAsync(
        int id, HandoverPrint print, HttpResponse response, CancellationToken cancel, string paper = "a4")
    {
        response.Headers.CacheControl = "no-store";
        response.Headers.ContentDisposition = $"inline; filename=\"handover-{id}.pdf\"";
        return await print.PrintAsync(id, SheetsApi.PaperOf(paper), cancel) is { } pdf
            ? TypedResults.File(pdf, "application/pdf")
            : TypedResults.Problem($"There is no closed handover {id}.", statusCode: StatusCodes.Status404NotFound);
    }
}
