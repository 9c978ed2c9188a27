using System.Text;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Quality.Charts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Api;

/// <summary>Control charts and remakes as files, with the questions of their pages.</summary>
internal static class QualityApi
{
    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/quality/chart.csv", ChartAsync).Needs(Right.SeeFigures)
            .WithSummary("A control chart as CSV, one plotted point a row")
            .WithDescription(
                $"measure is Floor, Relief, Thickness or StageTime (of the station, such as Imaging); material and equipment are ids; grouping is Singles, Shifts or Fives. from and to are days of the "
                + $"site's calendar (yyyy-MM-dd), both included, {SitePeriod.MostDays} at most; without them the last {SitePeriod.UsualDays}. The newest {QualityQueries.Most} values count.")
            .Produces(StatusCodes.Status200OK, contentType: "text/csv");
        api.MapGet("/quality/remakes.csv", RemakesAsync).Needs(Right.SeeFigures)
            .WithSummary("The remakes of a period as CSV, newest first")
            .WithDescription($"from and to are days of the site's calendar (yyyy-MM-dd), both included, {SitePeriod.MostDays} at most; without them the last {SitePeriod.UsualDays}. The newest {RemakeFigures.Most} are listed.")
            .Produces(StatusCodes.Status200OK, contentType: "text/csv");
    }

    private static async Task<IResult> ChartAsync(
        RoomCatalog rooms, QualityQueries queries, TimeProvider clock, CancellationToken cancel, string? measure = null, string? station = null, int? material = null, int? equipment = null,
        string? grouping = null, string? from = null, string? to = null)
    {
        var room = await rooms.GetAsync(cancel);
        var ask = QualityAsk.Read(room, measure, station, material, equipment, grouping, SitePeriod.Read(from, to, clock.GetUtcNow().UtcDateTime, room.Zone));
        var chart = QualityChart.Of(ask, await queries.ReadAsync(ask, cancel), room);
        return File(QualityCsv.Write(chart, room), $"{ask.Measure}-{ask.Period.FromText}-{ask.Period.ToText}.csv");
    }

    private static async Task<IResult> RemakesAsync(RoomCatalog rooms, RemakeFigures figures, TimeProvider clock, CancellationToken cancel, string? from = null, string? to = null)
    {
        var room = await rooms.GetAsync(cancel);
        var period = SitePeriod.Read(from, to, clock.GetUtcNow().UtcDateTime, room.Zone);
        return File(RemakeFigures.Csv((await figures.ReadAsync(period, cancel)).Facts), $"remakes-{period.FromText}-{period.ToText}.csv");
    }

    internal static IResult File(string csv, string name) => TypedResults.File([.. Csv.Mark, .. Encoding.UTF8.GetBytes(csv)], "text/csv", name);
}
