using System.Globalization;
using Microsoft.AspNetCore.Http.Extensions;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process.Units;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Lists;
using PlateTickets.Tickets.Orders.Search;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stations.Duty;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Orders;

namespace PlateTickets.Web.Api;

internal static class OrdersApi
{
    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapPost("/orders", EnterAsync).Needs(Right.EnterOrders)
            .WithSummary("Enter an order; its ticket waits for the separations")
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapPost("/orders/{number}/separations", AddSeparationsAsync).Needs(Right.EnterOrders)
            .WithSummary("Add one-bit TIFF separations; the plates are laid out on sheets at once")
            .WithDescription("Each part of the form is one file. With complete=false the ticket goes on waiting for more. A file that looks wrong (a length around that is not distorted, for another plate, twice or too long; a blank one; a copy of another colour; another size than the rest) is refused unless accept says why it is right; acceptLength is its older name. Milder findings come back as warnings. A file that cannot be read is named in the errors, and then none of this request's files is taken.")
            .Accepts<IFormFileCollection>("multipart/form-data")
            .WithMetadata(new DisableRequestSizeLimitAttribute())
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status409Conflict)
            .ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/orders", ListAsync).Needs(Right.Look)
            .WithSummary("Orders by page: the open ones by due time, or the done ones, newest first")
            .WithDescription("With search (words or their beginnings in number, customer, title, press, material, colour or lot), dueFrom or dueTo: all tickets that fit, newest first, without a total. limit is 1 to 200. The header Link names the next page (RFC 8288), rel=next.");
        api.MapGet("/tickets/{number}", TicketAsync).Needs(Right.Look)
            .WithSummary("A ticket with its plates, sheets and stages")
            .WithDescription("The header ETag names the state of ticket and sheets, planned times left out. PATCH takes it in If-Match.")
            .ProducesProblem(StatusCodes.Status404NotFound);
        api.MapPatch("/tickets/{number}", ChangeAsync).Needs(Right.ChangePlan)
            .WithSummary("Rush a ticket, put it on hold or let it go on")
            .WithDescription("If-Match takes the ETag of the ticket that was looked at. 412 when somebody changed it since, 428 without.")
            .ProducesProblem(StatusCodes.Status404NotFound)
            .ProducesProblem(StatusCodes.Status409Conflict)
            .ProducesProblem(StatusCodes.Status412PreconditionFailed)
            .ProducesProblem(StatusCodes.Status428PreconditionRequired);
    }

    private static async Task<Created<OrderResponse>> EnterAsync(
        OrderRequest request, HttpContext http, OrderEntry entry, IdempotentCalls calls, RoomCatalog rooms, IDbContextFactory<PlateRoomDb> databases, CancellationToken cancel)
    {
        var call = CallKeys.Of(http.Request, http.User, request);
        var number = await calls.OnceAsync(call, http.Response, () => EnterNowAsync(request, RoomClaims.NameOf(http.User), call, entry, rooms, databases, cancel), cancel);
        var ticket = $"/api/v1/tickets/{number}";
        return TypedResults.Created(ticket, new OrderResponse(number, ticket, $"/api/v1/orders/{number}/separations"));
    }

    private static async Task<string> EnterNowAsync(
        OrderRequest request, string by, CallKey? call, OrderEntry entry, RoomCatalog rooms, IDbContextFactory<PlateRoomDb> databases, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var customer = request.Customer.Trim();
        await using var db = await databases.CreateDbContextAsync(cancel);
        var known = await db.Customers.Where(c => c.Name == customer).ToDictionaryAsync(c => c.Name, c => c.Id, cancel);
        var errors = new Dictionary<string, string>();
        var order = new NamedOrder(customer, request.Title, request.Press, request.Cylinder, request.RepeatMm, request.Material, request.Due.UtcDateTime, request.Copies).Resolve(room, known, errors);
        return order is null ? throw new OrderRefusedException(errors) : await entry.EnterAsync(order, [], by, call: call, cancel: cancel);
    }

    private static async Task<Ok<SeparationsResponse>> AddSeparationsAsync(
        string number, HttpContext http, OrderEntry entry, IdempotentCalls calls, OrderQueries queries, SeparationIntake intake, RoomCatalog rooms, CancellationToken cancel, bool complete = true, string accept = "", string acceptLength = "")
    {
        var ticketNumber = NumberOf(number, NumberKind.Ticket);
        if (await queries.FindAsync(ticketNumber, cancel) is null)
        {
            throw new KeyNotFoundException($"There is no order {number}.");
        }

        var because = accept.Length > 0 ? accept : acceptLength;
        var read = new List<ReadSeparation>();
        var errors = new Dictionary<string, string>();
        await foreach (var (name, content) in MultipartFiles.ReadAsync(http.Request, cancel))
        {
            try
            {
                read.Add(await intake.ReadAsync(content, name, null, null, cancel) with { AcceptedBecause = because });
            }
            catch (SeparationException refused)
            {
                errors[name] = refused.Message;
            }
        }

        if (errors.Count > 0)
        {
            throw new OrderRefusedException(errors);
        }

        if (read.Count == 0)
        {
            throw new BadHttpRequestException("The form holds no file. Send each separation as a part with a file name.");
        }

        var call = CallKeys.Of(http.Request, http.User, complete, because, read.Select(r => r.Sha256).Order());
        await calls.OnceAsync(
            call,
            http.Response,
            async () =>
            {
                await entry.AddSeparationsAsync(ticketNumber, read, RoomClaims.NameOf(http.User), complete, call: call, cancel: cancel);
                return ticketNumber;
            },
            cancel);
        var after = (await queries.FindAsync(ticketNumber, cancel))!;
        return TypedResults.Ok(new SeparationsResponse(ticketNumber, after.Ticket.State.ToString(), Described(after.Ticket.Separations, (await rooms.GetAsync(cancel)).Site.Units)));
    }

    private static async Task<Ok<OrderPage>> ListAsync(
        OrderQueries queries, TicketSearch finder, HttpContext http, CancellationToken cancel,
        bool done = false, string search = "", DateOnly? dueFrom = null, DateOnly? dueTo = null, int? before = null, int skip = 0, int limit = 50)
    {
        if (limit is < 1 or > 200 || skip is < 0 or > 1_000_000)
        {
            throw new BadHttpRequestException("“limit” is 1 to 200, “skip” 0 to 1 000 000.");
        }

        var ask = new TicketAsk(search, dueFrom, dueTo);
        if (!ask.IsEmpty)
        {
            var found = await finder.FindAsync(ask, before, limit + 1, cancel);
            if (found.Count > limit)
            {
                var query = new QueryBuilder { { "search", search }, { "before", $"{found[limit - 1]}" }, { "limit", $"{limit}" } };
                foreach (var (name, day) in new[] { ("dueFrom", dueFrom), ("dueTo", dueTo) })
                {
                    if (day is { } one)
                    {
                        query.Add(name, one.ToString("O", CultureInfo.InvariantCulture));
                    }
                }

                Next(http, query);
            }

            return TypedResults.Ok(new OrderPage(null, 0, Lines(await queries.ListAsync([.. found.Take(limit)], cancel))));
        }

        var (lines, total) = await queries.ListAsync(done, skip, limit, cancel);
        if (skip + lines.Count < total)
        {
            Next(http, new QueryBuilder { { "done", done ? "true" : "false" }, { "skip", $"{skip + lines.Count}" }, { "limit", $"{limit}" } });
        }

        return TypedResults.Ok(new OrderPage(total, skip, Lines(lines)));
    }

    private static void Next(HttpContext http, QueryBuilder query) => http.Response.Headers.Link = $"<{http.Request.Path}{query}>; rel=\"next\"";

    private static List<OrderLineResponse> Lines(IEnumerable<OrderLine> lines) =>
        [.. lines.Select(l => new OrderLineResponse(l.Number, l.Customer, l.Title, l.Press, l.Material, l.DueUtc, l.State.ToString(), l.Plates, l.Sheets, l.SheetsDone, l.PlannedDoneUtc, l.DoneUtc, $"/api/v1/tickets/{l.Number}"))];

    private static async Task<Results<Ok<TicketResponse>, ProblemHttpResult>> TicketAsync(
        string number, OrderQueries queries, PlanBook plan, TimeProvider clock, HttpResponse response, CancellationToken cancel)
    {
        if (await queries.FindAsync(NumberOf(number, NumberKind.Ticket), cancel) is not { } view)
        {
            throw new KeyNotFoundException($"There is no ticket {number}.");
        }

        response.Headers.ETag = Tag(view);
        response.Headers.CacheControl = "private, no-cache";
        return TypedResults.Ok(TicketMapping.Of(view, clock.GetUtcNow().UtcDateTime, plan.LateChance(view.Order.Id)));
    }

    private static async Task<Ok<TicketResponse>> ChangeAsync(
        string number, TicketChange change, HttpContext http, OrderQueries queries, DutyDesk desk, PlanBook plan, TimeProvider clock, CancellationToken cancel)
    {
        var ticketNumber = NumberOf(number, NumberKind.Ticket);
        var view = await queries.FindAsync(ticketNumber, cancel) ?? throw new KeyNotFoundException($"There is no ticket {number}.");
        if (change.Rush is null == change.OnHold is null)
        {
            throw new BadHttpRequestException("Send either “rush” or “onHold”: one change at a time.");
        }

        if (change.Reason?.Length > 200)
        {
            throw new BadHttpRequestException("A reason has at most 200 characters.");
        }

        var seen = http.Request.Headers.IfMatch.ToString();
        if (seen.Length == 0)
        {
            throw new BadHttpRequestException("Send the ticket's ETag in If-Match: it says which state you decided on.", StatusCodes.Status428PreconditionRequired);
        }

        // "*" is any state that exists (RFC 9110, 13.1.1).
        var stamp = seen == "*" ? null : seen.Trim().Trim('"');
        var by = RoomClaims.NameOf(http.User);
        await (change switch
        {
            { Rush: { } rush } => desk.RushAsync(view.Order.Id, rush, by, stamp, cancel),
            { OnHold: true } => desk.HoldAsync(view.Order.Id, change.Reason ?? "", by, stamp, cancel),
            _ => desk.GoOnAsync(view.Order.Id, by, stamp, cancel),
        });
        var after = (await queries.FindAsync(ticketNumber, cancel))!;
        http.Response.Headers.ETag = Tag(after);
        return TypedResults.Ok(TicketMapping.Of(after, clock.GetUtcNow().UtcDateTime, plan.LateChance(after.Order.Id)));
    }

    private static string Tag(TicketView view) => $"\"{TicketStamp.Of(view)}\"";

    private static List<SeparationResponse> Described(IReadOnlyList<Separation> separations, LengthSystem units)
    {
        var job = separations.Select(JobFile.Of).ToList();
        return [.. separations.Select((s, i) => Of(s, [.. JobFindings.Of(job[i], job, units).Select(f => f.Sentence)]))];
    }

    private static SeparationResponse Of(Separation s, IReadOnlyList<string> warnings) => new(
        s.FileName, s.Colour, s.ColourFrom, s.WidthUm / 1000.0, s.LengthUm / 1000.0, s.XPixelsPerMm * 25.4, s.YPixelsPerMm * 25.4, s.Sha256, s.Coverage, s.InkCm2,
        s.ImageWidthUm is null ? null : new ImageBoxResponse(s.ImageLeftUm!.Value / 1000.0, s.ImageTopUm!.Value / 1000.0, s.ImageWidthUm.Value / 1000.0, s.ImageLengthUm!.Value / 1000.0),
        TicketMapping.Preview(s), warnings);

    /// <summary>A number from an address, forgiving in case and grouping.</summary>
    internal static string NumberOf(string text, NumberKind kind)
    {
        var read = TrackingNumber.Read(text);
        return read.Kind == kind
            ? read.Number!
            : throw new KeyNotFoundException($"“{read.Cleaned}” is not a {kind.ToString().ToLowerInvariant()} number.");
    }
}
