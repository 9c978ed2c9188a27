using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Net.Http.Headers;
using PlateTickets.Tickets.Calendars;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Startup;

namespace PlateTickets.Web.Calendars;

/// <summary>The address that calendar programs read again and again. The secret in it stands for signing in.</summary>
internal static partial class CalendarAddress
{
    public static void Map(IEndpointRouteBuilder app) => app.MapGet(Urls.Calendar("{secret}"), ReadAsync).AllowAnonymous().ExcludeFromDescription().RequireRateLimiting(Limits.Api);

    private static async Task<IResult> ReadAsync(
        string secret, HttpContext http, CalendarFeeds feeds, CalendarQueries queries, RoomCatalog rooms, PlanBook plan, TimeProvider clock, CancellationToken cancel)
    {
        // No refusal tells a wrong address from one that has ended.
        var shows = secret.Length > 100 ? CalendarContent.None : await feeds.RecogniseAsync(secret, cancel);
        if (shows == CalendarContent.None)
        {
            return TypedResults.Problem("There is no such calendar, or its address has ended. Make a new one on “Your account”.", statusCode: StatusCodes.Status404NotFound);
        }

        var room = await rooms.GetAsync(cancel);
        var outlooks = plan.Now?.Outlooks;
        var text = CalendarText.Write(
            room.Site.Name,
            shows.HasFlag(CalendarContent.DueTimes) ? await queries.DueTimesAsync(cancel) : [],
            shows.HasFlag(CalendarContent.Checks) ? await queries.ChecksAsync(cancel) : [],
            due => due switch
            {
                { State: TicketState.Done, DoneUtc: { } done } => $"Done {SiteClock.Moment(done, room.Zone)}.",
                { State: TicketState.Cancelled } => "The order was cancelled.",
                { State: TicketState.WaitingForFiles } => "It waits for its separations.",
                _ => outlooks?.GetValueOrDefault(due.TicketId) is { } outlook ? $"By the plan it is done by {SiteClock.Moment(PromiseDesk.Rounded(outlook.Finish.NinetyFive), room.Zone)} with 95 % confidence." : null,
            },
            number => new Uri($"{http.Request.Scheme}://{http.Request.Host}{http.Request.PathBase}{Urls.Ticket(number)}"),
            clock.GetUtcNow().UtcDateTime);
        http.Response.Headers.CacheControl = "private, no-cache";
        // When it was made says nothing new by itself: a program that has the same events need not take them again.
        var tag = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Stamp().Replace(text, ""))));
        return TypedResults.File(Encoding.UTF8.GetBytes(text), "text/calendar; charset=utf-8", "plates.ics", entityTag: new EntityTagHeaderValue($"\"{tag[..32]}\""));
    }

    [GeneratedRegex(@"^DTSTAMP:.*\r?\n", RegexOptions.Multiline | RegexOptions.CultureInvariant)]
    private static partial Regex Stamp();
}
