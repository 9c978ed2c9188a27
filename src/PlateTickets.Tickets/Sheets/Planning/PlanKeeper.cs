using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>Makes the plan of all open sheets anew and writes what changed into their stages.</summary>
public sealed class PlanKeeper(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock)
{
    private const int Attempts = 5;

    /// <summary>Makes the plan. Returns how many stages changed.</summary>
    public async Task<int> ReplanAsync(CancellationToken cancel = default)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return await ReplanOnceAsync(await rooms.GetAsync(cancel), cancel);
            }
            catch (DbUpdateConcurrencyException) when (attempt < Attempts)
            {
                // A scan came between reading and writing. What it recorded stands; the plan reads again.
            }
        }
    }

    private async Task<int> ReplanOnceAsync(Room room, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var sheets = await db.Sheets
            .Where(s => s.State == SheetState.Waiting || s.State == SheetState.Running)
            .Include(s => s.Stages)
            .ToListAsync(cancel);
        if (sheets.Count == 0)
        {
            return 0;
        }

        var due = await DueTimesAsync(db, cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        var (request, times) = PlanInput.Build(room, sheets, due, now);
        Write(room, sheets, DispatchPlanner.Build(request), times);
        db.ChangeTracker.DetectChanges();
        var stages = db.ChangeTracker.Entries<Stage>().Where(e => e.State == EntityState.Modified).Select(e => e.Entity.SheetId).ToList();
        var changed = stages.ToHashSet();
        foreach (var sheet in sheets.Where(s => changed.Contains(s.Id)))
        {
            // Counts the sheet's version up with its plan: a scan in between makes this save fail, not disappear.
            db.Entry(sheet).Property(s => s.Version).IsModified = true;
        }

        await db.SaveChangesAsync(cancel);
        events.TellChanged(changed);
        return stages.Count;
    }

    private static async Task<Dictionary<int, SheetDue>> DueTimesAsync(PlateRoomDb db, CancellationToken cancel) =>
        await db.Placements
            .Where(p => p.Sheet!.State == SheetState.Waiting || p.Sheet.State == SheetState.Running)
            .GroupBy(p => p.SheetId)
            .Select(g => new
            {
                Sheet = g.Key,
                Due = g.Min(p => p.Plate!.Ticket!.Order!.DueUtc),
                Weight = g.Max(p => p.Plate!.Ticket!.Weight),
            })
            .ToDictionaryAsync(d => d.Sheet, d => new SheetDue(d.Due, d.Weight), cancel);

    private static void Write(Room room, List<Sheet> sheets, Plan plan, StageTimesByMachine times)
    {
        var stages = sheets.SelectMany(s => s.Stages).ToDictionary(s => s.Id);
        foreach (var planned in plan.Stages)
        {
            var stage = stages[planned.StageId];
            stage.PlannedStartUtc = planned.StartUtc;
            stage.PlannedFinishUtc = planned.FinishUtc;
            stage.DueByUtc = planned.DueByUtc;
            if (stage.State == StageState.Waiting)
            {
                StageTiming.Write(stage, room.EquipmentById(planned.EquipmentId)!, times[(stage.Id, planned.EquipmentId)]);
            }
        }
    }
}
