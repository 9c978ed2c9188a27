using System.Text.Json.Serialization;

namespace PlateTickets.Web.Api;

/// <summary>The HTTP interface: JSON in and out, problem details (RFC 9457) for everything that goes wrong.</summary>
internal static class PlateRoomApi
{
    private const string Root = "/api";

    /// <summary>Is this an address of the interface, and not of a page?</summary>
    public static bool Owns(PathString path) => path.StartsWithSegments(Root);

    public static void AddServices(IServiceCollection services)
    {
        services.AddOpenApi("v1", options => options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info.Title = "PlateTickets";
            document.Info.Description = "Orders, tickets, scans, the board and travelers of a flexographic plate room. Times are UTC.";
            return Task.CompletedTask;
        }));
        services.AddProblemDetails();
        services.AddExceptionHandler<RefusalHandler>();
        // A body that cannot be read must reach the refusal handler, which says what is wrong with it.
        services.Configure<RouteHandlerOptions>(options => options.ThrowOnBadRequest = true);
        services.ConfigureHttpJsonOptions(json => json.SerializerOptions.Converters.Add(new JsonStringEnumConverter()));
    }

    public static void Map(WebApplication app)
    {
        app.MapOpenApi("/openapi/{documentName}.json");
        app.Use(RefuseOtherSites);
        var api = app.MapGroup($"{Root}/v1").DisableAntiforgery().ProducesProblem(StatusCodes.Status400BadRequest);
        OrdersApi.Map(api);
        FilesApi.Map(api);
        PromisesApi.Map(api);
        SheetsApi.Map(api);
        ScansApi.Map(api);
        BoardApi.Map(api);
        RecipesApi.Map(api);
        AuditApi.Map(api);
    }

    // Without sign-in a page of another site, open in the same browser, could write into the room.
    private static Task RefuseOtherSites(HttpContext context, RequestDelegate next) =>
        context.Request.Headers["Sec-Fetch-Site"] == "cross-site" && !HttpMethods.IsGet(context.Request.Method)
            ? TypedResults.Problem("Another site may not write here.", statusCode: StatusCodes.Status403Forbidden).ExecuteAsync(context)
            : next(context);
}
