using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Demo;

/// <summary>How an empty database begins.</summary>
public enum RoomStartKind
{
    /// <summary>The invented demo room.</summary>
    Demo = 1,

    /// <summary>A room with its shifts and nothing else.</summary>
    Empty = 2,
}

/// <summary>Fills an empty database; leaves a filled one alone.</summary>
public sealed class RoomStart(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
{
    /// <summary>Returns false when the database already holds a room.</summary>
    /// <param name="kind">Demo or empty.</param>
    /// <param name="zone">The site's time zone.</param>
    /// <param name="withHistory">For the demo: with its invented tickets of the last days.</param>
    /// <param name="withPast">For the demo: with the finished orders of two months before, which charts and reports are made of.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task<bool> FillAsync(RoomStartKind kind, TimeZoneInfo zone, bool withHistory = true, bool withPast = true, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        if (await db.Sites.AnyAsync(cancel))
        {
            return false;
        }

        db.NumberSequences.AddRange(new NumberSequence { Kind = NumberKind.Sheet, Next = 1 }, new NumberSequence { Kind = NumberKind.Ticket, Next = 1 });
        db.Sites.Add(SiteOf(kind, zone));
        if (kind == RoomStartKind.Empty)
        {
            await db.SaveChangesAsync(cancel);
            return true;
        }

        await AddDemoRoomAsync(db, clock.GetUtcNow().UtcDateTime, cancel);
        if (withPast)
        {
            using var rooms = new RoomCatalog(databases, clock);
            var now = clock.GetUtcNow().UtcDateTime;
            await new DemoPast(databases, await rooms.GetAsync(cancel), now.AddTicks(-(now.Ticks % TimeSpan.TicksPerSecond))).WriteAsync(cancel);
        }

        if (withHistory)
        {
            await new DemoDays(databases, clock).PlayAsync(cancel);
        }

        return true;
    }

    private static Site SiteOf(RoomStartKind kind, TimeZoneInfo zone) => new()
    {
        Name = kind == RoomStartKind.Demo ? "Harbour Lane plate room" : "Plate room",
        TimeZoneId = zone.HasIanaId || !TimeZoneInfo.TryConvertWindowsIdToIanaId(zone.Id, out var iana) ? zone.Id : iana,
        IsDemo = kind == RoomStartKind.Demo,
        Shifts =
        [
            Shift("Early shift", 6, 14, new(9, 0), new(9, 30), operators: kind == RoomStartKind.Demo ? 3 : null),
            Shift("Late shift", 14, 22, new(18, 0), new(18, 30), operators: kind == RoomStartKind.Demo ? 2 : null),
        ],
    };

    // Every day of the week: the demo must be alive on whatever day somebody tries it.
    private static ShiftEntry Shift(string name, int from, int to, TimeOnly breakFrom, TimeOnly breakTo, int? operators) => new()
    {
        Name = name,
        Days = [.. Enum.GetValues<DayOfWeek>()],
        Start = new TimeOnly(from, 0),
        End = new TimeOnly(to, 0),
        Operators = operators,
        Breaks = [new BreakSpan { Start = breakFrom, End = breakTo }],
    };

    private static async Task AddDemoRoomAsync(PlateRoomDb db, DateTime nowUtc, CancellationToken cancel)
    {
        var equipment = DemoRoom.Equipment();
        var materials = DemoRoom.Materials();
        db.Equipment.AddRange(equipment);
        db.Materials.AddRange(materials);
        db.RecipeRevisions.AddRange(materials.SelectMany(m => DemoRoom.Revisions(m, nowUtc)));
        db.StockSizes.AddRange(materials.SelectMany(m => DemoRoom.StockSizes(m, nowUtc)));
        db.Presses.AddRange(DemoRoom.Presses(materials));
        db.Customers.AddRange(DemoRoom.Customers.Select(name => new Orders.Customer { Name = name }));
        await db.SaveChangesAsync(cancel);
        db.StepTests.Add(DemoRoom.StepTest(materials[0], equipment[0].Id, nowUtc));
        db.LampReadings.AddRange(DemoRoom.Readings(equipment[0].Id, back: 14.9, face: 15.1, daysAgo: 3, nowUtc));
        db.LampReadings.AddRange(DemoRoom.Readings(equipment[1].Id, back: 14.2, face: 14.6, daysAgo: 1.2, nowUtc));
        await db.SaveChangesAsync(cancel);
    }
}
