using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Reports;

/// <summary>Reads what a report adds up: one pass over tickets, sheets, stages and remakes for each of the two periods.</summary>
public sealed class ReportQueries(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, TimeProvider clock)
{
    // A room of a hundred sheets a day does not reach this in a year.
    private const int Most = 300_000;

    // A sheet that waited longer than this for its first stage was on hold; its waiting is counted from here on.
    private static readonly TimeSpan LongestWait = TimeSpan.FromDays(60);

    public async Task<RoomReport> ReadAsync(SitePeriod period, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        return RoomReport.Of(await FactsAsync(period, room, cancel), await FactsAsync(period.Before, room, cancel), room);
    }

    private async Task<ReportFacts> FactsAsync(SitePeriod period, Room room, CancellationToken cancel)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        var (from, to) = (period.FromUtc(room.Zone), period.ToUtc(room.Zone));
        var until = to < now ? to : now;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var done = await Lines(db.Tickets.Where(t => t.State == TicketState.Done && t.DoneUtc >= from && t.DoneUtc < to)).ToListAsync(cancel);
        var due = await Lines(db.Orders.Where(o => o.DueUtc >= from && o.DueUtc < until && o.Ticket!.State != TicketState.Cancelled).Select(o => o.Ticket!)).ToListAsync(cancel);
        var sheets = await db.Sheets.AsNoTracking().Where(s => s.State == SheetState.Done && s.DoneUtc >= from && s.DoneUtc < to).OrderByDescending(s => s.DoneUtc).Take(Most)
            .Select(s => new ReportSheet(
                (long)s.WidthUm * s.LengthUm, s.Placements.Count(p => !p.Plate!.OutOfSet), s.Placements.Where(p => !p.Plate!.OutOfSet).Sum(p => (long)p.WidthUm * p.LengthUm)))
            .ToListAsync(cancel);
        var stages = await StagesAsync(db, from, to, cancel);
        var working = room.WorkingBetween(from - LongestWait, to);
        return new ReportFacts
        {
            Period = period,
            Done = done,
            Due = due,
            Sheets = sheets,
            Machines = Machines(stages, from, to),
            Queues = Queues(stages, working, from, to),
            Remakes = await db.Remakes.Where(r => r.AtUtc >= from && r.AtUtc < to).GroupBy(_ => 1)
                .Select(g => new ReportRemakes(g.Count(), g.Sum(r => r.AreaUm2), g.Sum(r => (long)r.SpentSeconds))).SingleOrDefaultAsync(cancel) ?? new(0, 0, 0),
            WorkingSeconds = new WorkedTime(working).Between(from, until).TotalSeconds,
            More = done.Count == Most || due.Count == Most || sheets.Count == Most || stages.Count == Most,
        };
    }

    private static IQueryable<ReportTicket> Lines(IQueryable<Ticket> tickets) =>
        tickets.AsNoTracking().OrderByDescending(t => t.Id).Take(Most).Select(t => new ReportTicket(t.Order!.EnteredUtc, t.Order.DueUtc, t.State == TicketState.Done ? t.DoneUtc : null));

    // Whole sheets: what a stage waited for is the end of the one before.
    private static Task<List<Passed>> StagesAsync(PlateRoomDb db, DateTime from, DateTime to, CancellationToken cancel) =>
        db.Stages.AsNoTracking().Where(s => db.Stages.Where(x => x.FinishedUtc >= from && x.FinishedUtc < to).Select(x => x.SheetId).Contains(s.SheetId))
            .OrderByDescending(s => s.SheetId).Take(Most)
            .Select(s => new Passed(
                s.SheetId, s.Station, s.EquipmentId, s.LoadSeconds, s.RunSeconds, s.UnloadSeconds, s.OccupiesSeconds, s.RunIsAttended, s.RestAfterSeconds, s.StartedUtc, s.FinishedUtc,
                s.SkippedBecause != "", s.Sheet!.MadeUtc))
            .ToListAsync(cancel);

    private static List<ReportMachine> Machines(List<Passed> stages, DateTime from, DateTime to) =>
    [
        .. stages.Where(s => s.FinishedUtc >= from && s.FinishedUtc < to && s is { Skipped: false, EquipmentId: not null }).GroupBy(s => s.EquipmentId!.Value)
            .Select(g => new ReportMachine(
                g.Key, g.Sum(s => (long)s.RunSeconds), g.Sum(s => (long)s.LoadSeconds + s.UnloadSeconds + (s.RunIsAttended ? s.RunSeconds : 0)),
                g.Sum(s => (long)s.LoadSeconds + s.OccupiesSeconds + s.UnloadSeconds))),
    ];

    private static List<ReportQueue> Queues(List<Passed> stages, WorkingTime working, DateTime from, DateTime to)
    {
        var clock = new WorkedTime(working);
        var waits = new List<(Station Station, double Minutes)>();
        foreach (var sheet in stages.GroupBy(s => s.SheetId))
        {
            var ready = sheet.First().MadeUtc;
            foreach (var stage in sheet.OrderBy(s => s.Station))
            {
                if (stage is { Skipped: false, StartedUtc: { } started } && started >= from && started < to)
                {
                    waits.Add((stage.Station, clock.Between(ready, started).TotalMinutes));
                }

                if (stage.FinishedUtc is { } finished)
                {
                    ready = finished.AddSeconds(stage.Skipped ? 0 : stage.RestAfterSeconds);
                }
            }
        }

        return [.. waits.GroupBy(w => w.Station).Select(g => new ReportQueue(g.Key, g.Count(), g.Sum(w => w.Minutes)))];
    }

    private sealed record Passed(
        int SheetId, Station Station, int? EquipmentId, int LoadSeconds, int RunSeconds, int UnloadSeconds, int OccupiesSeconds, bool RunIsAttended, int RestAfterSeconds,
        DateTime? StartedUtc, DateTime? FinishedUtc, bool Skipped, DateTime MadeUtc);
}
