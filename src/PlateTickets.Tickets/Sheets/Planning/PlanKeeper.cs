using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Planning.Scheduling.Replanning;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>Makes the plan of all open sheets anew and writes what changed into their stages.</summary>
public sealed class PlanKeeper(
    IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, StageSpreads spreads, PlanBook book, RoomEvents events, TimeProvider clock) : IDisposable
{
    private const int Attempts = 5;

    // One plan at a time is written: an improvement must not overwrite a plan that knows more.
    private readonly SemaphoreSlim _one = new(1, 1);

    /// <summary>Makes the plan. Returns how many stages changed.</summary>
    public async Task<int> ReplanAsync(CancellationToken cancel = default)
    {
        await _one.WaitAsync(cancel);
        try
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
        finally
        {
            _one.Release();
        }
    }

    /// <summary>
    /// Takes over an improved plan, unless there is a newer one already or something was scanned meanwhile: then the next
    /// plan is on its way, and nothing is lost but the improvement.
    /// </summary>
    public async Task<bool> AdoptAsync(LivePlan of, LivePlan improved, CancellationToken cancel = default)
    {
        await _one.WaitAsync(cancel);
        try
        {
            if (book.Now?.Live != of)
            {
                return false;
            }

            var room = await rooms.GetAsync(cancel);
            await using var db = await databases.CreateDbContextAsync(cancel);
            var (sheets, tickets) = await ReadAsync(db, cancel);
            var (request, times) = PlanInput.Build(room, sheets, tickets, await spreads.GetAsync(cancel), of.Request.NowUtc);
            if (!SameStages(request, improved.Request))
            {
                return false;
            }

            await SaveAsync(db, room, sheets, improved, times, cancel);
            return true;
        }
        catch (DbUpdateConcurrencyException)
        {
            return false;
        }
        finally
        {
            _one.Release();
        }
    }

    public void Dispose() => _one.Dispose();

    private async Task<int> ReplanOnceAsync(Room room, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var (sheets, tickets) = await ReadAsync(db, cancel);
        if (sheets.Count == 0)
        {
            book.Set(null);
            return 0;
        }

        var (request, times) = PlanInput.Build(room, sheets, tickets, await spreads.GetAsync(cancel), clock.GetUtcNow().UtcDateTime);
        return await SaveAsync(db, room, sheets, LivePlan.Start(request, book.Now?.Live.Plan), times, cancel);
    }

    private async Task<int> SaveAsync(PlateRoomDb db, Room room, List<Sheet> sheets, LivePlan live, StageTimesByMachine times, CancellationToken cancel)
    {
        Write(room, sheets, live.Plan, times);
        db.ChangeTracker.DetectChanges();
        var stages = db.ChangeTracker.Entries<Stage>().Where(e => e.State == EntityState.Modified).Select(e => e.Entity.SheetId).ToList();
        var changed = stages.ToHashSet();
        foreach (var sheet in sheets.Where(s => changed.Contains(s.Id)))
        {
            // Counts the sheet's version up with its plan: a scan in between makes this save fail, not disappear.
            db.Entry(sheet).Property(s => s.Version).IsModified = true;
        }

        await db.SaveChangesAsync(cancel);
        // What was known of the last plan is shown until this one is simulated, a moment later.
        book.Set(book.Now is { } last ? last with { Live = live } : new RoomPlan(live, NoOutlooks, NoCritical));
        events.TellChanged(changed);
        return stages.Count;
    }

    private static readonly Dictionary<int, TicketOutlook> NoOutlooks = [];
    private static readonly Dictionary<int, CriticalStage> NoCritical = [];

    private static async Task<(List<Sheet> Sheets, List<PlanTicket> Tickets)> ReadAsync(PlateRoomDb db, CancellationToken cancel)
    {
        var sheets = await db.Sheets
            .Where(s => s.State == SheetState.Waiting || s.State == SheetState.Running)
            .Include(s => s.Stages)
            .ToListAsync(cancel);
        var carries = await db.Placements
            .Where(p => !p.Plate!.OutOfSet && p.Plate.Ticket!.State != TicketState.Cancelled && (p.Sheet!.State == SheetState.Waiting || p.Sheet.State == SheetState.Running))
            .Select(p => new { p.SheetId, p.Plate!.TicketId, p.Plate.Ticket!.Order!.DueUtc, p.Plate.Ticket.Weight })
            .Distinct()
            .ToListAsync(cancel);
        return (sheets, [.. carries.GroupBy(c => c.TicketId).OrderBy(g => g.Key)
            .Select(g => new PlanTicket(g.Key, g.First().DueUtc, g.First().Weight, [.. g.Select(c => c.SheetId).Order()]))]);
    }

    private static bool SameStages(PlanRequest now, PlanRequest then) =>
        now.Sheets.SelectMany(s => s.Stages).Select(s => (s.Id, s.Running)).ToHashSet()
            .SetEquals(then.Sheets.SelectMany(s => s.Stages).Select(s => (s.Id, s.Running)));

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
