using Microsoft.AspNetCore.Mvc;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Messages;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Exchange.Documents;

/// <summary>
/// Where other programs send XJDF and XJMF: one address for everything, and one for each message (XJDF 2.2, table 9.5). Always POST, always XJMF in
/// the answer with status 200 when it could be answered (9.5.2); only who may not come in gets a problem.
/// </summary>
internal static class XjmfAddresses
{
    public const string Root = "/api/xjdf";

    private static readonly (string Path, string? Only)[] Addresses =
    [
        ("", null),
        ("/queue-entries/submit", "CommandSubmitQueueEntry"),
        ("/queue-entries/resubmit", "CommandResubmitQueueEntry"),
        ("/queue-entries/modify", "CommandModifyQueueEntry"),
        ("/queue-entries", "QueryQueueStatus"),
        ("/queue-entries/subscribe", "QueryQueueStatus"),
        ("/status", "QueryStatus"),
        ("/status/subscribe", "QueryStatus"),
        ("/subscriptions", "QueryKnownSubscriptions"),
        ("/subscriptions/stop", "CommandStopPersistentChannel"),
        ("/messages", "QueryKnownMessages"),
        ("/devices", "QueryKnownDevices"),
    ];

    public static void Map(IEndpointRouteBuilder app)
    {
        // XML of a standard: it is described there and in docs/exchange.md, not in the description of the JSON interface.
        var group = app.MapGroup(Root).DisableAntiforgery().RequireRateLimiting(Limits.Api).ExcludeFromDescription();
        foreach (var (path, only) in Addresses)
        {
            group.MapPost(path, (HttpContext http, DocumentDoorway doorway) => AnswerAsync(http, doorway, only)).Needs(Right.Look).WithMetadata(new DisableRequestSizeLimitAttribute());
        }

        group.MapGet("/documents/{id:int}.xjdf", CameAsync).Needs(Right.EnterOrders);
        group.MapGet("/queue-entries/{entry}/" + ReturnedXjdf.FileName, ReturnedAsync).Needs(Right.Look);
    }

    private static async Task<IResult> AnswerAsync(HttpContext http, DocumentDoorway doorway, string? only)
    {
        var rights = RoomClaims.RightsOf(http.User);
        var caller = new XjmfCaller(
            RoomClaims.NameOf(http.User), DocumentDoor.Http, "sent by HTTP", rights.HasFlag(Right.EnterOrders), rights.HasFlag(Right.ChangePlan),
            $"{http.Request.Scheme}://{http.Request.Host}{http.Request.PathBase}{Root}");
        return TypedResults.Bytes(await doorway.AnswerAsync(http.Request.Body, caller, only, http.RequestAborted), XjdfNames.XjmfType);
    }

    private static async Task<IResult> CameAsync(int id, DocumentDesk desk, CancellationToken cancel) => await desk.BytesAsync(id, cancel) is { } bytes
        ? TypedResults.File(bytes, XjdfNames.XjdfType, $"document-{id}.xjdf")
        : TypedResults.Problem($"There is no order document {id}.", statusCode: StatusCodes.Status404NotFound);

    private static async Task<IResult> ReturnedAsync(string entry, ReturnedXjdf returned, CancellationToken cancel) => await returned.OfAsync(entry, cancel) is { } document
        ? TypedResults.File(XjmfText.Bytes(document), XjdfNames.XjdfType, $"{entry}.xjdf")
        : TypedResults.Problem($"There is no queue entry “{(entry.Length > 40 ? entry[..40] : entry)}”.", statusCode: StatusCodes.Status404NotFound);
}
