using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Board;

/// <summary>What the board shows beside the sheets, read from the database.</summary>
internal sealed record ShiftFacts(IReadOnlyList<RemakeFact> Remakes, IReadOnlyList<StepTestFact> StepTests)
{
    /// <summary>Remakes since the site's midnight, the newest first, and the newest step test of each material on each frame.</summary>
    public static async Task<ShiftFacts> ReadAsync(PlateRoomDb db, Room room, DateTime nowUtc, CancellationToken cancel)
    {
        var midnight = SiteClock.ToUtc(SiteClock.Local(nowUtc, room.Zone).Date, room.Zone);
        var remakes = await db.Remakes.AsNoTracking()
            .Where(r => r.AtUtc >= midnight)
            .OrderByDescending(r => r.AtUtc).ThenByDescending(r => r.Id)
            .Select(r => new RemakeFact(
                r.Id, r.Ticket!.Order!.Number, r.Ticket.Order.Customer!.Name, r.Plate!.Separation!.Colour, r.Defect, r.FoundAt, r.AtUtc))
            .ToListAsync(cancel);
        return new ShiftFacts(remakes, await StepTestsAsync(db, cancel));
    }

    /// <summary>The newest step test of each material on each frame.</summary>
    public static Task<List<StepTestFact>> StepTestsAsync(PlateRoomDb db, CancellationToken cancel) => db.StepTests.AsNoTracking()
        .GroupBy(t => new { t.MaterialId, t.EquipmentId })
        .Select(g => new StepTestFact(g.Key.MaterialId, g.Key.EquipmentId, g.Max(t => t.MadeUtc)))
        .ToListAsync(cancel);
}

internal sealed record RemakeFact(int Id, string TicketNumber, string Customer, string Colour, PlateDefect Defect, Station? FoundAt, DateTime AtUtc);

internal sealed record StepTestFact(int MaterialId, int EquipmentId, DateTime MadeUtc);
