using System.Text;
using Microsoft.Net.Http.Headers;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Arrivals;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

/// <summary>Previews and lists of plates as files.</summary>
internal static class FilesApi
{
    private const int MostLines = 100_000;

    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/separations/{id:int}/preview.png", PreviewAsync).Needs(Right.Look)
            .WithSummary("The grey preview of a separation, at most 1024 pixels on its longer side")
            .Produces(StatusCodes.Status200OK, contentType: "image/png")
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/arrivals/{id:int}/preview.png", ArrivedAsync).Needs(Right.EnterOrders)
            .WithSummary("The grey preview of a file that came in through the drop folder")
            .Produces(StatusCodes.Status200OK, contentType: "image/png")
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/tickets/{number}/plates.csv", TicketPlatesAsync).Needs(Right.Look)
            .WithSummary("The plates of a ticket with their ink coverage as CSV")
            .Produces(StatusCodes.Status200OK, contentType: "text/csv")
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/plates.csv", PlatesAsync).Needs(Right.Look)
            .WithSummary("The plates of all tickets entered in a time, with their ink coverage, as CSV")
            .WithDescription("from is included, to is not; both with offset (RFC 3339). At most 100 000 plates: ask for a shorter time when the file is that long.")
            .Produces(StatusCodes.Status200OK, contentType: "text/csv");
    }

    private static async Task<IResult> PreviewAsync(int id, OrderQueries queries, HttpResponse response, CancellationToken cancel, string? v = null)
    {
        if (await queries.PreviewAsync(id, cancel) is not { } preview)
        {
            return TypedResults.Problem($"Separation {id} has no preview.", statusCode: StatusCodes.Status404NotFound);
        }

        // Only an address that names this very image may be kept without asking again.
        var kept = v is { Length: >= 16 } && preview.ImageHash.StartsWith(v, StringComparison.Ordinal);
        response.Headers.CacheControl = kept ? "private, max-age=31536000, immutable" : "private, no-cache";
        return TypedResults.File(preview.Png, "image/png", entityTag: new EntityTagHeaderValue($"\"{preview.ImageHash}\""));
    }

    private static async Task<IResult> ArrivedAsync(int id, ArrivalDesk desk, HttpResponse response, CancellationToken cancel)
    {
        if (await desk.PreviewAsync(id, cancel) is not { } png)
        {
            return TypedResults.Problem($"Arrived file {id} has no preview.", statusCode: StatusCodes.Status404NotFound);
        }

        response.Headers.CacheControl = "private, no-cache";
        var tag = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(png));
        return TypedResults.File(png, "image/png", entityTag: new EntityTagHeaderValue($"\"{tag}\""));
    }

    private static async Task<IResult> TicketPlatesAsync(string number, OrderQueries queries, CancellationToken cancel)
    {
        var ticket = OrdersApi.NumberOf(number, NumberKind.Ticket);
        return await queries.FindAsync(ticket, cancel) is null
            ? TypedResults.Problem($"There is no ticket {number}.", statusCode: StatusCodes.Status404NotFound)
            : Csv(await queries.InkAsync(default, default, ticket, MostLines, cancel), $"plates-{ticket}.csv");
    }

    private static async Task<IResult> PlatesAsync(DateTimeOffset from, DateTimeOffset to, OrderQueries queries, CancellationToken cancel) => from >= to
        ? throw new BadHttpRequestException("“from” must lie before “to”.")
        : Csv(await queries.InkAsync(from.UtcDateTime, to.UtcDateTime, null, MostLines, cancel), "plates.csv");

    private static IResult Csv(IEnumerable<InkLine> lines, string name) =>
        TypedResults.File([.. PlateTickets.Tickets.Csv.Mark, .. Encoding.UTF8.GetBytes(InkCsv.Write(lines))], "text/csv", name);
}
