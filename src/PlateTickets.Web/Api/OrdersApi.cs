using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Accounts;
using System.Security.Claims;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process.Units;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
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
        api.MapGet("/tickets/{number}", TicketAsync).Needs(Right.Look)
            .WithSummary("A ticket with its plates, sheets and stages")
            .ProducesProblem(StatusCodes.Status404NotFound);
    }

    private static async Task<Created<OrderResponse>> EnterAsync(
        OrderRequest request, ClaimsPrincipal who, OrderEntry entry, RoomCatalog rooms, IDbContextFactory<PlateRoomDb> databases, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var press = room.Presses.FirstOrDefault(p => Same(p.Name, request.Press))
            ?? throw Refused(nameof(NewOrder.PressId), $"There is no press “{request.Press}”. Presses: {string.Join(", ", room.Presses.Select(p => p.Name))}.");
        var cylinder = request.Cylinder is null
            ? null
            : press.Cylinders.Find(c => Same(c.Name, request.Cylinder))
                ?? throw Refused(nameof(NewOrder.CylinderId), $"{press.Name} has no cylinder “{request.Cylinder}”. It has: {string.Join(", ", press.Cylinders.Select(c => c.Name))}.");
        var material = request.Material is null
            ? null
            : room.Materials.Values.FirstOrDefault(m => Same(m.Name, request.Material))
                ?? throw Refused(nameof(NewOrder.MaterialId), $"There is no material “{request.Material}”. Materials: {string.Join(", ", room.Materials.Values.Select(m => m.Name))}.");
        var customer = request.Customer.Trim();
        await using var db = await databases.CreateDbContextAsync(cancel);
        var number = await entry.EnterAsync(
            new NewOrder
            {
                CustomerId = await db.Customers.Where(c => c.Name == customer).Select(c => c.Id).FirstOrDefaultAsync(cancel),
                NewCustomer = customer,
                Title = request.Title,
                PressId = press.Id,
                CylinderId = cylinder?.Id ?? 0,
                RepeatMm = request.RepeatMm,
                MaterialId = material?.Id ?? 0,
                DueUtc = request.Due.UtcDateTime,
                Copies = request.Copies,
            },
            [], RoomClaims.NameOf(who), cancel: cancel);
        var ticket = $"/api/v1/tickets/{number}";
        return TypedResults.Created(ticket, new OrderResponse(number, ticket, $"/api/v1/orders/{number}/separations"));
    }

    private static async Task<Ok<SeparationsResponse>> AddSeparationsAsync(
        string number, HttpRequest request, ClaimsPrincipal who, OrderEntry entry, OrderQueries queries, SeparationIntake intake, RoomCatalog rooms, CancellationToken cancel, bool complete = true, string accept = "", string acceptLength = "")
    {
        var ticketNumber = NumberOf(number, NumberKind.Ticket);
        if (await queries.FindAsync(ticketNumber, cancel) is null)
        {
            throw new KeyNotFoundException($"There is no order {number}.");
        }

        var because = accept.Length > 0 ? accept : acceptLength;
        var read = new List<ReadSeparation>();
        var errors = new Dictionary<string, string>();
        await foreach (var (name, content) in MultipartFiles.ReadAsync(request, cancel))
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

        await entry.AddSeparationsAsync(ticketNumber, read, RoomClaims.NameOf(who), complete, cancel: cancel);
        var after = (await queries.FindAsync(ticketNumber, cancel))!;
        return TypedResults.Ok(new SeparationsResponse(ticketNumber, after.Ticket.State.ToString(), Described(after.Ticket.Separations, (await rooms.GetAsync(cancel)).Site.Units)));
    }

    private static async Task<Results<Ok<TicketResponse>, ProblemHttpResult>> TicketAsync(
        string number, OrderQueries queries, PlanBook plan, TimeProvider clock, CancellationToken cancel) =>
        await queries.FindAsync(NumberOf(number, NumberKind.Ticket), cancel) is { } view
            ? TypedResults.Ok(TicketMapping.Of(view, clock.GetUtcNow().UtcDateTime, plan.LateChance(view.Order.Id)))
            : TypedResults.Problem($"There is no ticket {number}.", statusCode: StatusCodes.Status404NotFound);

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

    private static bool Same(string a, string b) => a.Equals(b.Trim(), StringComparison.OrdinalIgnoreCase);

    private static OrderRefusedException Refused(string field, string sentence) => new(new Dictionary<string, string> { [field] = sentence });
}
