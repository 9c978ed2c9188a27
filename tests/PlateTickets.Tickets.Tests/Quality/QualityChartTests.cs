using PlateTickets.Process;
using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Quality.Charts;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Quality;

public class QualityChartTests
{
    private static readonly DateOnly Today = new(2026, 11, 25);

    [Fact]
    public async Task FloorsThatShift_AreSignals_WithTheLampReadingNearThem()
    {
        await using var room = await RoomFixture.CreateAsync();
        var start = room.Now.AddHours(-30);
        double[] steady = [1.190, 1.196, 1.184, 1.192, 1.187, 1.195, 1.188, 1.193, 1.185, 1.191, 1.189, 1.194];
        await ReadAsync(room, [.. steady.Select((v, i) => (start.AddHours(i), v)), .. Enumerable.Range(12, 8).Select(i => (start.AddHours(i), 1.205 + (0.002 * (i % 2))))]);
        await using (var db = room.CreateDbContext())
        {
            db.LampReadings.Add(new LampReadingEntry { EquipmentId = 1, Bank = LampBank.Back, IrradianceMwPerCm2 = 13.2, ReadUtc = start.AddHours(11.5), ReadBy = "Ada" });
            await db.SaveChangesAsync();
        }

        var chart = await ChartAsync(room, QualityMeasure.Floor, equipment: 1);
        Assert.Equal(20, chart.Groups.Count);
        Assert.False(chart.IsProvisional);
        Assert.Equal((1.14, 1.24), (chart.Limits.From, chart.Limits.To));
        Assert.NotNull(chart.Capability);
        var eight = Assert.Single(chart.Signals, s => s.Rule == ControlRule.EightOnOneSide && s.At == chart.Groups[^1]);
        Assert.Equal(start.AddHours(12), eight.First.FromUtc);
        Assert.Equal("Frame 1, back lamps read: 13.2 mW/cm², 14.9 before", eight.Changes[0].Sentence);
        Assert.All(eight.Changes, c => Assert.DoesNotContain("face", c.Sentence, StringComparison.Ordinal));

        var csv = QualityCsv.Write(chart, await room.Rooms.GetAsync());
        Assert.Equal(21, csv.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length);
        Assert.Contains("rule 4", csv, StringComparison.Ordinal);
        Assert.Empty((await ChartAsync(room, QualityMeasure.Floor, equipment: 2)).Groups);
        Assert.Null((await ChartAsync(room, QualityMeasure.Relief)).Control);
    }

    [Fact]
    public async Task Shifts_MakeGroups_AndAValueAloneIsLeftOut()
    {
        await using var room = await RoomFixture.CreateAsync();
        var day = new DateTime(2026, 11, 23, 0, 0, 0, DateTimeKind.Utc);
        await ReadAsync(room, (day.AddHours(7), 1.19), (day.AddHours(13.5), 1.20), (day.AddHours(14), 1.18), (day.AddHours(21), 1.21), (day.AddHours(23), 1.19), (day.AddHours(31), 1.2), (day.AddHours(32), 1.2));
        var chart = await ChartAsync(room, QualityMeasure.Floor, QualityGrouping.Shifts);
        Assert.Equal([2, 2, 2], chart.Groups.Select(g => g.Values.Count));
        Assert.Equal(1, chart.LeftOut);
        Assert.Equal([0.01, 0.03, 0], chart.Control!.Spread.Points.Select(p => Math.Round(p.Value, 6)));
        Assert.Equal([5, 2], (await ChartAsync(room, QualityMeasure.Floor, QualityGrouping.Fives)).Groups.Select(g => g.Values.Count));
    }

    [Fact]
    public async Task Lots_ThatAreNewInThePeriod_AreChanges()
    {
        await using var room = await RoomFixture.CreateAsync();
        var values = Enumerable.Range(0, 12).Select(i => new QualityValue(room.Now.AddHours(i - 12), i < 6 ? 1.19 + (0.001 * (i % 2)) : 1.25, 1.14, 1.24, "S", 1, i < 6 ? "L-1" : "L-2", 2, "Ada")).ToList();
        var catalog = await room.Rooms.GetAsync();
        var chart = QualityChart.Of(QualityAsk.Read(catalog, "floor", null, 1, null, null, new(Today, Today)), new(values, false, 0, []), catalog);
        Assert.Contains(chart.Signals, s => s.Rule == ControlRule.BeyondThree && s.Changes.Any(c => c.Sentence == "lot L-2 is in use for the first time in this period"));
        Assert.DoesNotContain(chart.Signals.SelectMany(s => s.Changes), c => c.Sentence.Contains("L-1", StringComparison.Ordinal));
    }

    [Fact]
    public async Task MoreThanAChartHolds_KeepsTheNewest_AndSaysSo()
    {
        await using var room = await RoomFixture.CreateAsync();
        await ReadAsync(room, [.. Enumerable.Range(0, QualityQueries.Most + 5).Select(i => (room.Now.AddMinutes(i - 1100), 1.19 + (0.001 * (i % 7))))]);
        var chart = await ChartAsync(room, QualityMeasure.Floor);
        Assert.True(chart.More);
        Assert.Equal(QualityQueries.Most, chart.Groups.Count);
        Assert.Equal(room.Now.AddMinutes(QualityQueries.Most + 4 - 1100), chart.Groups[^1].AtUtc);
    }

    /// <summary>Clocks go back in Berlin on 25 October 2026 at 01:00 UTC (IANA tz database): that day has 25 hours, from 22:00 UTC to 23:00 UTC.</summary>
    [Fact]
    public async Task DaysAreThoseOfTheSite_AlsoWhenItsClocksChange()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using (var db = room.CreateDbContext())
        {
            db.Sites.Single().TimeZoneId = "Europe/Berlin";
            await db.SaveChangesAsync();
            room.Rooms.Forget();
        }

        DateTime At(int day, int hour, int minute) => new(2026, 10, day, hour, minute, 0, DateTimeKind.Utc);
        await ReadAsync(room, (At(24, 21, 59), 1.1), (At(24, 22, 0), 1.2), (At(25, 22, 59), 1.3), (At(25, 23, 0), 1.4));
        var day = new SitePeriod(new(2026, 10, 25), new(2026, 10, 25));
        var catalog = await room.Rooms.GetAsync();
        Assert.Equal(TimeSpan.FromHours(25), day.ToUtc(catalog.Zone) - day.FromUtc(catalog.Zone));
        var values = (await new QualityQueries(room, room.Rooms).ReadAsync(QualityAsk.Read(catalog, null, null, null, null, null, day))).Values;
        Assert.Equal([1.2, 1.3], values.Select(v => v.Value));
    }

    [Fact]
    public async Task StageTimes_AreInPercentOfTheComputed_AndForgottenScansAreLeftOut()
    {
        await using var room = await RoomFixture.CreateAsync();
        foreach (var minutes in new[] { 0, 4, 60 })
        {
            var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
            await room.PassAsync(sheet, "frame-1");
            await room.ScanAsync(sheet, "imager-a");
            var total = (await room.Sheets.FindAsync(sheet))!.Sheet.Stages.Single(s => s.Station == Station.Imaging).TotalSeconds;
            room.Clock.Advance(TimeSpan.FromSeconds(total) + TimeSpan.FromMinutes(minutes));
            await room.ScanAsync(sheet, "imager-a");
        }

        var chart = await ChartAsync(room, QualityMeasure.StageTime);
        Assert.Equal(2, chart.Groups.Count);
        Assert.Equal(1, chart.LeftOut);
        Assert.Equal(100, chart.Groups[0].Values[0].Value, 1e-9);
        Assert.True(chart.Groups[1].Values[0].Value > 110);
        Assert.Null(chart.Capability);
    }

    [Theory]
    [InlineData(Station.Drying, 0)]
    [InlineData(Station.FaceExposure, 1)]
    public async Task LampReadings_AreNearTheTimesOfExposuresOnly(Station station, int changes)
    {
        await using var room = await RoomFixture.CreateAsync();
        var ask = new QualityAsk(QualityMeasure.StageTime, station, 1, null, QualityGrouping.Singles, new(Today, Today));
        var lamp = new LampReadingEntry { EquipmentId = 1, Bank = LampBank.Face, IrradianceMwPerCm2 = 13.2, ReadUtc = room.Now, ReadBy = "Ada" };
        Assert.Equal(changes, QualityChanges.Of([], [lamp], ask, await room.Rooms.GetAsync()).Count);
    }

    [Theory]
    [InlineData("weight", null, null, "There is no measure “weight”: use one of Floor, Relief, Thickness, StageTime.")]
    [InlineData(null, 99, null, "There is no such material.")]
    [InlineData(null, null, 99, "There is no such machine.")]
    public async Task WhatCannotBeCharted_IsRefused(string? measure, int? material, int? equipment, string sentence)
    {
        await using var room = await RoomFixture.CreateAsync();
        var catalog = await room.Rooms.GetAsync();
        Assert.Equal(sentence, Assert.Throws<PlateRoomException>(() => QualityAsk.Read(catalog, measure, null, material, equipment, null, new(Today, Today))).Message);
    }

    [Theory]
    [InlineData(7, 59, "Early shift", 25)]
    [InlineData(9, 15, "Early shift", 25)]
    [InlineData(14, 0, "Late shift", 25)]
    [InlineData(5, 59, "outside of the shifts", 25)]
    public async Task ShiftAt_CountsBreaks(int hour, int minute, string name, int day)
    {
        await using var room = await RoomFixture.CreateAsync();
        var shift = (await room.Rooms.GetAsync()).ShiftAt(new DateTime(2026, 11, 25, hour, minute, 0, DateTimeKind.Utc));
        Assert.Equal((name, new DateOnly(2026, 11, day)), (shift.Title, shift.Day));
    }

    [Fact]
    public async Task ShiftAt_ANightShiftBelongsToTheEveningBefore()
    {
        await using var room = await RoomFixture.CreateAsync();
        await using (var db = room.CreateDbContext())
        {
            db.Sites.Single().Shifts.Add(new ShiftEntry { Name = "Night", Days = [DayOfWeek.Tuesday], Start = new(22, 0), End = new(6, 0) });
            await db.SaveChangesAsync();
            room.Rooms.Forget();
        }

        // 25 November 2026 is a Wednesday.
        var catalog = await room.Rooms.GetAsync();
        Assert.Equal(new ShiftOnDay(new(2026, 11, 24), "Night"), catalog.ShiftAt(new DateTime(2026, 11, 25, 3, 0, 0, DateTimeKind.Utc)));
        Assert.Null(catalog.ShiftAt(new DateTime(2026, 11, 26, 3, 0, 0, DateTimeKind.Utc)).Name);
    }

    [Fact]
    public async Task Remakes_AreAddedUp_ByReasonMachineAndShift()
    {
        await using var room = await RoomFixture.CreateAsync();
        var ticket = await room.OrderAsync(["Cyan", "Magenta", "Black"]);
        var sheet = ticket.Sheets[0];
        await room.PassAsync(sheet.Number, "frame-1");
        await room.PassAsync(sheet.Number, "imager-a");
        var plates = sheet.Placements.ConvertAll(p => p.PlateId);
        await room.Remakes.RemakeAsync(new(sheet.Number, [plates[0]], PlateDefect.Scratch, "", Station.Imaging, Station.FaceExposure), "Ada");
        await room.Remakes.RemakeAsync(new(sheet.Number, [plates[1]], PlateDefect.WrongImage, "=old file", null, Station.FaceExposure), "Ada");
        var figures = new RemakeFigures(room, room.Rooms);
        var period = SitePeriod.Last(30, room.Now, TimeZoneInfo.Utc);
        var remakes = await figures.ReadAsync(period);
        Assert.False(remakes.More);
        Assert.Equal(["no machine of ours", "Imager A"], RemakeFigures.Sums(remakes.Facts, RemakeBy.Equipment, RemakeCost.Plates).Select(b => b.Item.Title).OrderDescending(StringComparer.Ordinal));
        var early = Assert.Single(RemakeFigures.Sums(remakes.Facts, RemakeBy.Shift, RemakeCost.Area));
        Assert.Equal(("Early shift", 2, 1.0), (early.Item.Title, early.Item.Plates, early.Cumulative));
        // Two plates of 300 x 390.104 mm.
        Assert.Equal(2 * 0.300 * 0.390104, early.Item.AreaM2, 1e-9);
        Assert.True(early.Item.Minutes > 0);
        var csv = RemakeFigures.Csv(remakes.Facts);
        Assert.Contains("\"'=old file\"", csv, StringComparison.Ordinal);
        Assert.Empty((await figures.ReadAsync(period.Before)).Facts);
    }

    private static async Task<QualityChart> ChartAsync(RoomFixture room, QualityMeasure measure, QualityGrouping grouping = QualityGrouping.Singles, int? equipment = null)
    {
        var catalog = await room.Rooms.GetAsync();
        var ask = new QualityAsk(measure, Station.Imaging, 1, equipment, grouping, SitePeriod.Last(30, room.Now, TimeZoneInfo.Utc));
        return QualityChart.Of(ask, await new QualityQueries(room, room.Rooms).ReadAsync(ask), catalog);
    }

    /// <summary>Floors in mm, read on frame 1 from one sheet.</summary>
    private static async Task ReadAsync(RoomFixture room, params (DateTime AtUtc, double Mm)[] floors)
    {
        var id = (await room.OrderAsync(["Cyan"])).Sheets[0].Id;
        var catalog = await room.Rooms.GetAsync();
        await using var db = room.CreateDbContext();
        var sheet = db.Sheets.Single(s => s.Id == id);
        db.StageReadings.AddRange(floors.Select(f => ReadingRules.Number(ReadingKind.Floor, f.Mm, catalog.Revisions[sheet.RecipeRevisionId].Settings, catalog.Materials[1], Process.Units.LengthSystem.Metric)
            .Of(sheet, Station.BackExposure, 1, f.AtUtc, "Ada")));
        await db.SaveChangesAsync();
    }
}
