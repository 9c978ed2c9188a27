using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Handovers;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Tests.Handovers;

public class HandoverTests
{
    [Fact]
    public async Task Shift_IsClosedByOne_AndConfirmedByAnother_WithItsFacts()
    {
        await using var room = await RoomFixture.CreateAsync();
        var (first, second) = (await room.OrderAsync(["Cyan"]), await room.OrderAsync(["Black"], dueHours: 1));
        await room.PassAsync(first.Sheets[0].Number, "frame-1");
        await room.ScanAsync(first.Sheets[0].Number, "imager-a");
        await room.Duty.SetDownAsync(2, room.Now, room.Now.AddHours(3), "pump", "Ada");
        await room.Plans.ReplanAsync();
        room.Study.Simulate();
        var shift = (await room.Handovers.OpenAsync()).Single(o => o.Shift.EndUtc > room.Now).Shift;

        var draft = await room.Handovers.SaveNotesAsync(shift, "Frame 2 leaks.", OpenHandover.NotWritten, "Ada");
        var closed = await room.Handovers.CloseAsync(shift, "Frame 2 leaks. Call service.", draft.Version, "Ada");
        var facts = (await room.Handovers.FindAsync(closed.Id))!.Facts!;
        Assert.Equal(1, facts.Finished.Single(f => f.Station == Station.BackExposure).Sheets);
        Assert.Equal(0, facts.Finished.Single(f => f.Station == Station.Imaging).Sheets);
        Assert.Equal([first.Sheets[0].Number], facts.Running.Select(r => r.Sheet));
        Assert.Equal([second.Sheets[0].Number], facts.Waiting.Select(w => w.Sheet));
        Assert.Equal([second.Order.Number], facts.Endangered.Where(e => e.IsLate).Select(e => e.Number));
        Assert.Equal("pump", facts.Down.Single().Reason);

        // What happens later is not in it.
        await room.ScanAsync(first.Sheets[0].Number, "imager-a", ScanAction.Finish, confirmed: true);
        Assert.Equal([first.Sheets[0].Number], (await room.Handovers.FindAsync(closed.Id))!.Facts!.Running.Select(r => r.Sheet));
        await Assert.ThrowsAsync<HandoverChangedException>(() => room.Handovers.SaveNotesAsync(shift, "too late", closed.Version, "Ada"));

        await Assert.ThrowsAsync<PlateRoomException>(() => room.Handovers.ConfirmAsync(closed.Id, closed.Version, "", "Ada"));
        var confirmed = await room.Handovers.ConfirmAsync(closed.Id, closed.Version, "Service comes at 15:00.", "Bruno");
        Assert.Equal((HandoverState.Confirmed, "Bruno", "Service comes at 15:00."), (confirmed.State, confirmed.ConfirmedBy, confirmed.Remark));
        await Assert.ThrowsAsync<HandoverChangedException>(() => room.Handovers.ConfirmAsync(closed.Id, closed.Version, "", "Chika"));

        await using var db = room.CreateDbContext();
        var trail = await db.AuditEntries.Where(e => e.Record == nameof(Handover)).ToListAsync();
        Assert.Contains(trail, e => e.By == "Ada" && e.To == "Frame 2 leaks. Call service.");
        Assert.Contains(trail, e => e.By == "Bruno" && e.Field == nameof(Handover.Remark));
    }

    [Fact]
    public async Task TwoWhoWriteAtOnce_LoseNothing()
    {
        await using var room = await RoomFixture.CreateAsync();
        var shift = (await room.Handovers.OpenAsync())[^1].Shift;
        await room.Handovers.SaveNotesAsync(shift, "from Ada", OpenHandover.NotWritten, "Ada");
        var changed = await Assert.ThrowsAsync<HandoverChangedException>(() => room.Handovers.SaveNotesAsync(shift, "from Bruno", OpenHandover.NotWritten, "Bruno"));
        Assert.Equal("from Ada", changed.Current.Notes);
        Assert.StartsWith("Ada changed these notes", changed.Message, StringComparison.Ordinal);
        var both = await room.Handovers.SaveNotesAsync(shift, "from Ada\n\nfrom Bruno", changed.Current.Version, "Bruno");
        Assert.Equal("from Ada\n\nfrom Bruno", both.Notes);

        // In the very same moment: exactly one of them is saved, the others are told, and the record is whole.
        var answers = await Task.WhenAll(Enumerable.Range(0, 8).Select(async i =>
        {
            try
            {
                await room.Handovers.SaveNotesAsync(shift, $"text {i}", both.Version, $"Person {i}");
                return true;
            }
            catch (HandoverChangedException)
            {
                return false;
            }
        }));
        Assert.Equal(1, answers.Count(a => a));
    }

    [Fact]
    public async Task NightShift_BelongsToTheDayThatItBeginsOn_AndCountsWhatIsFinishedAfterMidnight()
    {
        await using var room = await RoomFixture.CreateAsync(hour: 23);
        await NightShiftAsync(room);
        var sheet = (await room.OrderAsync(["Cyan"])).Sheets[0].Number;
        await room.ScanAsync(sheet, "frame-1");
        room.Clock.Advance(TimeSpan.FromHours(2));
        await room.ScanAsync(sheet, "frame-1");
        var open = await room.Handovers.OpenAsync();
        var night = room.Handovers.Likely(open)!.Shift;
        Assert.Equal(("Night shift", new DateOnly(2026, 11, 25)), (night.Name, night.Day));
        var facts = await room.Handovers.FactsAsync(night);
        Assert.Equal(1, facts.Finished.Single(f => f.Station == Station.BackExposure).Sheets);
        // The evening before did not do it.
        Assert.Equal(0, (await room.Handovers.FactsAsync(open.First(o => o.Shift.Name == "Late shift").Shift)).Finished.Sum(f => f.Sheets));
    }

    [Theory]
    [InlineData("Europe/Berlin", 2027, 3, 27, 7)]
    [InlineData("Europe/Berlin", 2027, 10, 30, 9)]
    public async Task NightOfTheClockChange_IsHandedOverWhole(string zone, int year, int month, int day, int hours)
    {
        // The last Sundays of March and October 2027 (Directive 2000/84/EC): 28 March and 31 October.
        await using var room = await RoomFixture.CreateAsync(hour: 23);
        await NightShiftAsync(room, zone);
        room.Clock.SetUtcNow(new DateTimeOffset(year, month, day, 23, 30, 0, TimeSpan.Zero));
        var night = room.Handovers.Likely(await room.Handovers.OpenAsync())!.Shift;
        Assert.Equal(TimeSpan.FromHours(hours), night.EndUtc - night.StartUtc);
        var closed = await room.Handovers.CloseAsync(night, "", OpenHandover.NotWritten, "Ada");
        // The same shift is found again after the change, and not offered a second time.
        room.Clock.SetUtcNow(new DateTimeOffset(night.EndUtc.AddMinutes(10)));
        Assert.DoesNotContain(await room.Handovers.OpenAsync(), o => o.Shift == night);
        Assert.Equal(closed.Id, (await room.Handovers.EarlierAsync(0, 10)).Lines.Single().Id);
    }

    [Fact]
    public async Task JustAfterTheShift_TheOneThatHasGoneIsMeant_AndOvertimeCountsUntilTheNextBegins()
    {
        await using var room = await RoomFixture.CreateAsync(hour: 14);
        room.Clock.Advance(TimeSpan.FromMinutes(10));
        var open = await room.Handovers.OpenAsync();
        var early = room.Handovers.Likely(open)!.Shift;
        Assert.Equal("Early shift", early.Name);
        Assert.Equal(early.EndUtc, (await room.Handovers.FactsAsync(early)).CountedToUtc);
        await room.Handovers.CloseAsync(early, "", OpenHandover.NotWritten, "Ada");
        Assert.Equal("Late shift", room.Handovers.Likely(await room.Handovers.OpenAsync())!.Shift.Name);

        // After the last shift of the day nobody follows: who stays works for it.
        room.Clock.Advance(TimeSpan.FromHours(9));
        var late = room.Handovers.Likely(await room.Handovers.OpenAsync())!.Shift;
        Assert.Equal("Late shift", late.Name);
        Assert.Equal(room.Now, (await room.Handovers.FactsAsync(late)).CountedToUtc);
    }

    [Fact]
    public async Task EarlierHandovers_ComePageByPage_TheNewestFirst()
    {
        await using var room = await RoomFixture.CreateAsync();
        for (var i = 0; i < 5; i++)
        {
            var shift = (await room.Handovers.OpenAsync()).Single(o => o.Shift.EndUtc > room.Now && o.Shift.StartUtc <= room.Now).Shift;
            await room.Handovers.CloseAsync(shift, $"day {i}", OpenHandover.NotWritten, "Ada");
            room.Clock.Advance(TimeSpan.FromDays(1));
        }

        var (lines, count) = await room.Handovers.EarlierAsync(2, 2);
        Assert.Equal(5, count);
        Assert.Equal([new DateOnly(2026, 11, 27), new DateOnly(2026, 11, 26)], lines.Select(l => l.Day));
    }

    [Fact]
    public async Task TooLongNotes_AreRefusedWithTheirLength()
    {
        await using var room = await RoomFixture.CreateAsync();
        var shift = (await room.Handovers.OpenAsync())[^1].Shift;
        var refused = await Assert.ThrowsAsync<PlateRoomException>(() => room.Handovers.SaveNotesAsync(shift, new string('x', 8001), OpenHandover.NotWritten, "Ada"));
        Assert.Contains("8001 characters", refused.Message, StringComparison.Ordinal);
    }

    private static async Task NightShiftAsync(RoomFixture room, string? zone = null)
    {
        await using (var db = room.CreateDbContext())
        {
            var site = await db.Sites.Include(s => s.Shifts).SingleAsync();
            site.TimeZoneId = zone ?? site.TimeZoneId;
            site.Shifts.Add(new ShiftEntry { Name = "Night shift", Days = [.. Enum.GetValues<DayOfWeek>()], Start = new(22, 0), End = new(6, 0), Operators = 1 });
            await db.SaveChangesAsync();
        }

        room.Rooms.Forget();
    }
}
