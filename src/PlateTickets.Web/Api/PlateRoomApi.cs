using System.Text.Json.Serialization;
using Microsoft.AspNetCore.Mvc;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Api;

/// <summary>The HTTP interface: JSON in and out, problem details (RFC 9457) for everything that goes wrong.</summary>
internal static class PlateRoomApi
{
    private const string Root = "/api";

    /// <summary>Is this an address of the interface, and not of a page?</summary>
    public static bool Owns(PathString path) => path.StartsWithSegments(Root);

    public static void AddServices(IServiceCollection services)
    {
        services.AddOpenApi("v1", ApiDescription.Describe);
        services.AddProblemDetails(problems => problems.CustomizeProblemDetails = context =>
            context.ProblemDetails.Extensions.TryAdd("code", RefusalHandler.CodeOf(context.ProblemDetails.Status ?? context.HttpContext.Response.StatusCode)));
        services.AddExceptionHandler<RefusalHandler>();
        // A body that cannot be read must reach the refusal handler, which says what is wrong with it.
        services.Configure<RouteHandlerOptions>(options => options.ThrowOnBadRequest = true);
        services.ConfigureHttpJsonOptions(json =>
        {
            json.SerializerOptions.Converters.Add(new JsonStringEnumConverter());
            // null where a value must be is a mistake of the caller, found before anything is done with it.
            json.SerializerOptions.RespectNullableAnnotations = true;
        });
    }

    public static void Map(WebApplication app)
    {
        app.MapOpenApi("/openapi/{documentName}.json").AllowAnonymous();
        app.Use(RefuseOtherSites);
        var api = app.MapGroup($"{Root}/v1").DisableAntiforgery().RequireRateLimiting(Limits.Api).WithMetadata(new RequestSizeLimitAttribute(Limits.ApiBody))
            .ProducesProblem(StatusCodes.Status400BadRequest).ProducesProblem(StatusCodes.Status401Unauthorized)
            .ProducesProblem(StatusCodes.Status403Forbidden).ProducesProblem(StatusCodes.Status429TooManyRequests)
            // Of the database: it does not answer at the moment, or its disk is full.
            .ProducesProblem(StatusCodes.Status503ServiceUnavailable).ProducesProblem(StatusCodes.Status507InsufficientStorage);
        OrdersApi.Map(api);
        OrderListsApi.Map(api);
        FilesApi.Map(api);
        PromisesApi.Map(api);
        SheetsApi.Map(api);
        ScansApi.Map(api);
        BoardApi.Map(api);
        HandoversApi.Map(api);
        RecipesApi.Map(api);
        QualityApi.Map(api);
        ReportsApi.Map(api);
        AuditApi.Map(api);
    }

    // A page of another site, open in the same browser, must not write with the cookie of the person who has signed in. A key cannot be
    // sent by accident, so programs need not say where they come from.
    private static Task RefuseOtherSites(HttpContext context, RequestDelegate next) =>
        Owns(context.Request.Path) && !HttpMethods.IsGet(context.Request.Method) && !HttpMethods.IsHead(context.Request.Method)
        && context.Request.Headers["Sec-Fetch-Site"] != "same-origin" && (context.Request.Headers.ContainsKey("Sec-Fetch-Site") || !ApiKeyHandler.IsBearer(context.Request))
            ? TypedResults.Problem("Another site may not write here.", statusCode: StatusCodes.Status403Forbidden).ExecuteAsync(context)
            : next(context);
}
