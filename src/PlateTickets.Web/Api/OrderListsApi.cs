using System.ComponentModel;
using Microsoft.AspNetCore.Mvc;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Lists;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

/// <summary>Orders out and in as CSV (RFC 4180).</summary>
internal static class OrderListsApi
{
    private const int MostLines = 10_000;

    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/orders.csv", ExportAsync).Needs(Right.Look)
            .WithSummary("Orders and how far their tickets are as CSV")
            .WithDescription($"The open orders by due time; with done=true the others, newest first; with search, dueFrom or dueTo all that fit, newest first. At most {MostLines} orders. Times are the site's; its columns can be sent back to this address.")
            .Produces(StatusCodes.Status200OK, contentType: "text/csv");
        api.MapPost("/orders.csv", ImportAsync).Needs(Right.EnterOrders)
            .WithSummary("Enter the orders of a CSV list, all or none; their tickets wait for the separations")
            .WithDescription($"The first line names the columns: {string.Join(", ", OrderList.Columns)}. Cylinder or repeat mm must be given, material and copies may be left out. due is the site's time (2026-11-27 14:00) or has an offset. At most {OrderList.MostRows} orders. With check=true nothing is entered. 422 names each mistake by line and column.")
            .Accepts<string>("text/csv")
            .WithMetadata(new RequestSizeLimitAttribute(OrderImport.MostBytes + 1))
            .Produces<OrderListResponse>()
            .ProducesProblem(StatusCodes.Status413PayloadTooLarge)
            .ProducesProblem(StatusCodes.Status415UnsupportedMediaType)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/orders/example.csv", ExampleAsync).Needs(Right.EnterOrders)
            .WithSummary("A CSV list to fill in, with presses and materials of this room")
            .Produces(StatusCodes.Status200OK, contentType: "text/csv");
    }

    private static async Task<IResult> ExportAsync(
        OrderQueries queries, TicketSearch finder, RoomCatalog rooms, CancellationToken cancel, bool done = false, string search = "", DateOnly? dueFrom = null, DateOnly? dueTo = null)
    {
        var ask = new TicketAsk(search, dueFrom, dueTo);
        var lines = ask.IsEmpty
            ? (await queries.ListAsync(done, 0, MostLines, cancel)).Lines
            : await queries.ListAsync([.. await finder.FindAsync(ask, null, MostLines, cancel)], cancel);
        return QualityApi.File(OrderCsv.Write(lines, (await rooms.GetAsync(cancel)).Zone), "orders.csv");
    }

    private static async Task<IResult> ImportAsync(
        HttpContext http, OrderImport import, IdempotentCalls calls, CancellationToken cancel,
        [Description("comma, semicolon or tab")] string separator = "comma",
        [Description("point or comma")] string decimals = "point",
        [Description("Order of the parts of a date that is not ISO 8601: year, day or month first")] string dates = "year",
        bool check = false)
    {
        if (http.Request.ContentType?.StartsWith("text/csv", StringComparison.OrdinalIgnoreCase) != true)
        {
            throw new BadHttpRequestException("Send the list as text/csv.", StatusCodes.Status415UnsupportedMediaType);
        }

        var how = Reading(separator, decimals, dates);
        var text = await OrderImport.TextAsync(http.Request.Body, cancel);
        var view = await import.LookAsync(text, how, cancel);
        if (check)
        {
            return view.IsGood ? TypedResults.Ok(new OrderListResponse([], Warnings(view))) : throw new OrderRefusedException(view.Troubles);
        }

        var call = CallKeys.Of(http.Request, http.User, how.Separator, how.DecimalComma, how.Days, text);
        var numbers = await calls.OnceAsync(call, http.Response, async () => string.Join(' ', await import.EnterAsync(view, RoomClaims.NameOf(http.User), call, cancel)), cancel);
        return TypedResults.Ok(new OrderListResponse(numbers.Split(' '), Warnings(view)));
    }

    private static async Task<IResult> ExampleAsync(RoomCatalog rooms, TimeProvider clock, CancellationToken cancel) =>
        QualityApi.File(OrderCsv.Example(await rooms.GetAsync(cancel), clock.GetUtcNow().UtcDateTime), "orders-example.csv");

    private static List<string> Warnings(OrderImportView view) =>
    [
        .. view.Unread.Select(column => $"The column “{column}” was not read."),
        .. view.Rows.Where(r => r.Twin is not null).Select(r => $"Line {r.Line} looks like {r.Twin}."),
    ];

    private static ListReading Reading(string separator, string decimals, string dates) => new(
        separator switch { "comma" => ',', "semicolon" => ';', "tab" => '\t', _ => throw new BadHttpRequestException("“separator” is comma, semicolon or tab.") },
        decimals switch { "point" => false, "comma" => true, _ => throw new BadHttpRequestException("“decimals” is point or comma.") },
        dates switch { "year" => DayOrder.YearFirst, "day" => DayOrder.DayFirst, "month" => DayOrder.MonthFirst, _ => throw new BadHttpRequestException("“dates” is year, day or month.") });
}

/// <summary>The orders that a list became.</summary>
/// <param name="Numbers">In the order of the list; empty when it was only checked.</param>
/// <param name="Warnings">Columns that were not read, lines that look like an order that is there.</param>
internal sealed record OrderListResponse(IReadOnlyList<string> Numbers, IReadOnlyList<string> Warnings);
