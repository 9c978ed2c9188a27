using PlateTickets.Tickets.Reports;
using PlateTickets.Tickets.Stations;
using PlateTickets.Travelers;

namespace PlateTickets.Web.Reports;

/// <summary>Has the report of a period printed.</summary>
public sealed class ReportDesk(ReportQueries queries, RoomCatalog rooms, TimeProvider clock)
{
    public async Task<byte[]> PrintAsync(SitePeriod period, TravelerPaper paper, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var report = await queries.ReadAsync(period, cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        return ReportPdf.Render(
            new ReportContent
            {
                SiteName = room.Site.IsDemo ? $"{room.Site.Name} (invented demo)" : room.Site.Name,
                Period = period.ToString(),
                Before = period.Before.ToString(),
                PrintedAt = $"{SiteClock.MomentWithYear(now, room.Zone)} ({room.Zone.Id})",
                Sections = [.. report.Lines.GroupBy(l => l.Section).Select(s => new ReportSection(
                    s.Key, [.. s.Select(l => new ReportRow(l.Title, ReportText.Figure(l.Value, l), ReportText.Figure(l.Before, l), ReportText.Change(l)))]))],
                Notes = report.More ? ["There was more work than a report reads: the sums are of the newest part. Choose a shorter period.", .. ReportText.Notes] : ReportText.Notes,
            },
            paper);
    }
}
