using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Reports;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Reports;

public class RoomReportTests
{
    [Fact]
    public async Task OneTicket_FromEntryToCutting_ByHand()
    {
        await using var room = await RoomFixture.CreateAsync();
        // Wednesday 08:00, the early shift is at work. The sheet is 10 minutes old when its first stage starts.
        var entered = room.Now;
        var sheet = (await room.OrderAsync(["Cyan", "Black"])).Sheets[0];
        room.Clock.Advance(TimeSpan.FromMinutes(10));
        foreach (var (_, machine) in RoomFixture.SolventRoute)
        {
            await room.PassAsync(sheet.Number, machine);
            if (machine == "imager-a")
            {
                room.Clock.Advance(TimeSpan.FromMinutes(7));
            }
        }

        await using var db = room.CreateDbContext();
        var done = db.Tickets.Single().DoneUtc!.Value;
        var stages = db.Stages.Where(s => s.SheetId == sheet.Id).ToDictionary(s => s.Station);
        var report = await ReadAsync(room);
        Assert.False(report.More);
        Assert.Equal((1, 0), (Value(report, "Tickets done"), Line(report, "Tickets done").Before));
        Assert.Equal((100, null), (Value(report, "Done on time"), Line(report, "Done on time").Before));
        // Not due yet.
        Assert.Equal((0, null), (Value(report, "Tickets due"), Value(report, "Promise kept")));
        Assert.Equal((done - entered).TotalHours, Value(report, "Lead time, median")!.Value, 1e-9);
        Assert.Equal((1, 2), (Value(report, "Sheets done"), Value(report, "Plates on them")));
        Assert.Equal(2 * 0.300 * 0.390104, Value(report, "Area of the plates")!.Value, 1e-6);
        var area = sheet.WidthUm / 1e6 * sheet.LengthUm / 1e6;
        Assert.Equal(100 * (1 - (2 * 0.300 * 0.390104 / area)), Value(report, "Sheet waste")!.Value, 1e-3);
        Assert.Equal(10, Value(report, "Before back exposure"));
        Assert.Equal(7, Value(report, "Before face exposure"));
        Assert.Equal(0, Value(report, "Before imaging"));
        // 09:00 to 09:30 is a break of the early shift: whoever waits then loses no working time.
        var imaging = stages[Station.Imaging];
        Assert.Equal(imaging.RunSeconds / 3600.0, Value(report, "Imager A, run")!.Value, 1e-9);
        Assert.Equal((imaging.LoadSeconds + imaging.UnloadSeconds) / 3600.0, Value(report, "Imager A, attended")!.Value, 1e-9);
        var cutting = stages[Station.Cutting];
        Assert.True(cutting.RunIsAttended);
        Assert.Equal(cutting.TotalSeconds / 3600.0, Value(report, "Cutting table, attended")!.Value, 1e-9);

        // Thirty days of two shifts of 7.5 h, the last of them only up to now.
        var today = new WorkedTime((await room.Rooms.GetAsync()).WorkingBetween(room.Now.Date, room.Now)).Between(room.Now.Date, room.Now).TotalSeconds;
        Assert.Equal(100 * (imaging.LoadSeconds + imaging.OccupiesSeconds + imaging.UnloadSeconds) / ((29 * 15 * 3600) + today), Value(report, "Imager A, use of working time")!.Value, 1e-9);
    }

    [Fact]
    public async Task ALateTicket_IsAPromiseNotKept_AndARemakeCosts()
    {
        await using var room = await RoomFixture.CreateAsync();
        var sheet = (await room.OrderAsync(["Cyan"], dueHours: 8)).Sheets[0];
        await room.PassAsync(sheet.Number, "frame-1");
        await room.Remakes.RemakeAsync(new(sheet.Number, [], PlateDefect.Kink, "", Station.BackExposure, Station.Imaging), "Ada");
        Assert.Null(Value(await ReadAsync(room), "Promise kept"));
        room.Clock.Advance(TimeSpan.FromHours(20));
        var report = await ReadAsync(room);
        Assert.Equal((1, 0), (Value(report, "Tickets due"), Value(report, "Promise kept")));
        Assert.Equal((1, 1), (Value(report, "Plates made again"), Line(report, "Plates made again").Change));
        Assert.True(Value(report, "Material lost") > 0);
        Assert.Null(Value(report, "Sheet waste"));

        // The day after it is all in the period before.
        room.Clock.Advance(TimeSpan.FromDays(1));
        var later = await new ReportQueries(room, room.Rooms, room.Clock).ReadAsync(SitePeriod.Read("2026-11-27", "2026-11-28", room.Now, TimeZoneInfo.Utc));
        Assert.Equal((0, 1), (Value(later, "Plates made again"), Line(later, "Plates made again").Before));
        var csv = ReportCsv.Write(later).Split("\r\n");
        Assert.Equal("section,figure,unit,2026-11-27 to 2026-11-28,2026-11-25 to 2026-11-26,change", csv[0]);
        Assert.Contains("Remakes,Plates made again,,0,1,-1", csv);
    }

    [Theory]
    [InlineData(null, null, "2026-10-27", "2026-11-25")]
    [InlineData("2026-11-01", null, "2026-11-01", "2026-11-25")]
    [InlineData(null, "2026-10-31", "2026-10-02", "2026-10-31")]
    [InlineData("2024-02-29", "2024-02-29", "2024-02-29", "2024-02-29")]
    public void Period_Read(string? from, string? to, string first, string last)
    {
        var period = SitePeriod.Read(from, to, new DateTime(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc), TimeZoneInfo.Utc);
        Assert.Equal((first, last), (period.FromText, period.ToText));
        Assert.Equal((period.Days, period.From.AddDays(-1)), (period.Before.Days, period.Before.To));
    }

    [Theory]
    [InlineData("2026-11-26", "2026-11-25", "The first day lies after the last one: turn them round.")]
    [InlineData("2025-01-01", "2026-11-25", "694 days are too many at once: choose 366 or fewer.")]
    [InlineData("25.11.2026", null, "The first day “25.11.2026” is no day: write it like 2026-11-26.")]
    [InlineData(null, "0001-01-01", "The last day “0001-01-01” is no day: write it like 2026-11-26.")]
    public void Period_ThatCannotBe_IsRefused(string? from, string? to, string sentence) =>
        Assert.Equal(sentence, Assert.Throws<PlateRoomException>(() => SitePeriod.Read(from, to, new DateTime(2026, 11, 25, 8, 0, 0, DateTimeKind.Utc), TimeZoneInfo.Utc)).Message);

    /// <summary>Auckland is 13 hours ahead in November (IANA tz database): at 12:00 UTC its next day has begun.</summary>
    [Fact]
    public void Today_IsTheSitesDay() =>
        Assert.Equal(new DateOnly(2026, 11, 26), SitePeriod.Last(1, new DateTime(2026, 11, 25, 12, 0, 0, DateTimeKind.Utc), TimeZoneInfo.FindSystemTimeZoneById("Pacific/Auckland")).To);

    [Fact]
    public void WorkedTime_CountsOnlyWhatIsWorked()
    {
        var day = new DateTime(2026, 11, 25, 0, 0, 0, DateTimeKind.Utc);
        var worked = new WorkedTime(new WorkingTime([new(day.AddHours(6), day.AddHours(9)), new(day.AddHours(10), day.AddHours(14))]));
        Assert.Equal(7, worked.Between(day, day.AddDays(1)).TotalHours);
        Assert.Equal(1, worked.Between(day.AddHours(8), day.AddHours(10)).TotalHours);
        Assert.Equal(2, worked.Between(day.AddHours(8), day.AddHours(11)).TotalHours);
        Assert.Equal(0, worked.Between(day.AddHours(9), day.AddHours(10)).TotalHours);
        Assert.Equal(TimeSpan.Zero, worked.Between(day.AddHours(11), day.AddHours(8)));
        Assert.Equal(TimeSpan.Zero, new WorkedTime(new WorkingTime([])).Between(day, day.AddDays(1)));
    }

    [Fact]
    public void Change_IsThatOfTheShownFigures()
    {
        Assert.Equal(0.1, new ReportLine("", "", "h", 4.449, 4.34, 1, ReportSense.LessIsBetter).Change);
        Assert.Null(new ReportLine("", "", "h", null, 4, 1, ReportSense.Plain).Change);
    }

    private static Task<RoomReport> ReadAsync(RoomFixture room) => new ReportQueries(room, room.Rooms, room.Clock).ReadAsync(SitePeriod.Last(30, room.Now, TimeZoneInfo.Utc));

    private static ReportLine Line(RoomReport report, string title) => report.Lines.Single(l => l.Title == title);

    private static double? Value(RoomReport report, string title) => Line(report, title).Value;
}
