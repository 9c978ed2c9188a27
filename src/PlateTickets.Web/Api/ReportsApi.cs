using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Reports;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Accounts;
using PlateTickets.Web.Reports;

namespace PlateTickets.Web.Api;

/// <summary>The report of a period as a file.</summary>
internal static class ReportsApi
{
    private static readonly string Days =
        $"from and to are days of the site's calendar (yyyy-MM-dd), both included, {SitePeriod.MostDays} at most; without them the last {SitePeriod.UsualDays}. Each figure stands beside that of as many days before.";

    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/report.csv", CsvAsync).Needs(Right.SeeFigures)
            .WithSummary("The figures of the room in a period as CSV").WithDescription(Days)
            .Produces(StatusCodes.Status200OK, contentType: "text/csv");
        api.MapGet("/report.pdf", PdfAsync).Needs(Right.SeeFigures)
            .WithSummary("The figures of the room in a period as PDF; paper=a4 or letter").WithDescription(Days)
            .Produces(StatusCodes.Status200OK, contentType: "application/pdf");
    }

    private static async Task<IResult> CsvAsync(RoomCatalog rooms, ReportQueries queries, TimeProvider clock, CancellationToken cancel, string? from = null, string? to = null)
    {
        var period = SitePeriod.Read(from, to, clock.GetUtcNow().UtcDateTime, (await rooms.GetAsync(cancel)).Zone);
        return QualityApi.File(ReportCsv.Write(await queries.ReadAsync(period, cancel)), $"report-{period.FromText}-{period.ToText}.csv");
    }

    private static async Task<IResult> PdfAsync(
        RoomCatalog rooms, ReportDesk desk, TimeProvider clock, HttpResponse response, CancellationToken cancel, string? from = null, string? to = null, string paper = "a4")
    {
        var size = SheetsApi.PaperOf(paper);
        var period = SitePeriod.Read(from, to, clock.GetUtcNow().UtcDateTime, (await rooms.GetAsync(cancel)).Zone);
        response.Headers.ContentDisposition = $"inline; filename=\"report-{period.FromText}-{period.ToText}.pdf\"";
        return TypedResults.File(await desk.PrintAsync(period, size, cancel), "application/pdf");
    }
}
