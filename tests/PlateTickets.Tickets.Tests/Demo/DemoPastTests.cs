using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Reports;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Demo;

public class DemoPastTests
{
    [Fact]
    public async Task Past_IsDone_FillsBothPeriodsOfAReport_AndIsTheSameEachTime()
    {
        await using var room = await RoomFixture.CreateAsync(past: true);
        await using var db = room.CreateDbContext();
        Assert.All(await db.Tickets.ToListAsync(), t => Assert.Equal(TicketState.Done, t.State));
        Assert.All(await db.Sheets.ToListAsync(), s => Assert.Equal(SheetState.Done, s.State));
        Assert.All(await db.Stages.ToListAsync(), s => Assert.True(s.State == StageState.Done && s.StartedUtc < s.FinishedUtc && s.FinishedUtc < room.Now.AddHours(-36)));
        Assert.All(await db.Tickets.Include(t => t.Order).ToListAsync(), t => Assert.True(t.Order!.EnteredUtc < t.DoneUtc && t.DoneUtc - t.Order.EnteredUtc < TimeSpan.FromDays(3)));
        var report = await new ReportQueries(room, room.Rooms, room.Clock).ReadAsync(SitePeriod.Last(30, room.Now, TimeZoneInfo.Utc));
        Assert.All(
            new[] { "Tickets done", "Done on time", "Promise kept", "Sheets done", "Plates made again", "Before washout" }.Select(t => report.Lines.Single(l => l.Title == t)),
            l => Assert.True(l is { Value: > 0, Before: > 0 }, l.Title));

        await using var again = await RoomFixture.CreateAsync(past: true);
        var second = await new ReportQueries(again, again.Rooms, again.Clock).ReadAsync(SitePeriod.Last(30, room.Now, TimeZoneInfo.Utc));
        Assert.Equal(report.Lines, second.Lines);
    }

    [Fact]
    public async Task Past_LeavesTheOpenWorkAsItIs()
    {
        await using var with = await RoomFixture.CreateAsync(played: true, past: true);
        await using var without = await RoomFixture.CreateAsync(played: true);
        Assert.Equal(await OpenAsync(without), await OpenAsync(with));
    }

    // What is open and what for: not when it is planned, which the program has learned from the past.
    private static async Task<List<(string, DateTime, int)>> OpenAsync(RoomFixture room)
    {
        await using var db = room.CreateDbContext();
        var open = await db.Orders.Where(o => o.Ticket!.State != TicketState.Done && o.Ticket.State != TicketState.Cancelled)
            .OrderBy(o => o.EnteredUtc).Select(o => new { o.Title, o.DueUtc, Plates = o.Ticket!.Plates.Count }).ToListAsync();
        return open.ConvertAll(o => (o.Title, o.DueUtc, o.Plates));
    }
}
