using System.Diagnostics;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Planning.Scheduling.Lateness;
using PlateTickets.Planning.Scheduling.Replanning;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>Makes the plan of all open sheets anew and writes what changed into their stages.</summary>
public sealed class PlanKeeper(
    IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, StageSpreads spreads, PlanBook book, RoomEvents events, TimeProvider clock, RoomMetrics? metrics = null) : IDisposable
{
    private const int Attempts = 5;

    private const int SheetsAtOnce = 40;

    // Longer than any plan: what is written stays where it is.
    private static readonly TimeSpan Everything = TimeSpan.FromDays(3650);

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
                    var since = Stopwatch.GetTimestamp();
                    using var span = RoomMetrics.Source.StartActivity("plan");
                    var changed = await ReplanOnceAsync(await rooms.GetAsync(cancel), cancel);
                    metrics?.Planned(since);
                    return changed;
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

    /// <summary>Takes over the plan that another node made, from the stages as they are written, so that it can be asked here too. Writes nothing.</summary>
    public async Task FollowAsync(CancellationToken cancel = default)
    {
        await _one.WaitAsync(cancel);
        try
        {
            var room = await rooms.GetAsync(cancel);
            await using var db = await databases.CreateDbContextAsync(cancel);
            var (sheets, tickets) = await ReadAsync(db, cancel);
            if (sheets.Count == 0)
            {
                book.Set(null);
                return;
            }

            var (request, _) = PlanInput.Build(room, sheets, tickets, await spreads.GetAsync(cancel), clock.GetUtcNow().UtcDateTime);
            var live = LivePlan.Start(request, AsWritten(sheets), PlanRules.Usual with { HoldFor = Everything });
            book.Set(book.Now is { } last ? last with { Live = live } : new RoomPlan(live, NoOutlooks, NoCritical));
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
            // A part of it may be written: the next plan makes it whole.
            events.AskForPlan();
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
        db.ChangeTracker.AutoDetectChangesEnabled = false;
        var planned = live.Plan.Stages.ToDictionary(p => p.StageId);
        var (stages, passedOver) = (0, false);
        var written = new List<int>();
        try
        {
            // In parts, so that a scan need not wait until a whole room is written.
            foreach (var part in sheets.Chunk(SheetsAtOnce))
            {
                // What takes time is done before the others must wait.
                var changed = part.Select(sheet => (Sheet: sheet, Stages: sheet.Stages.FindAll(stage => planned.TryGetValue(stage.Id, out var at) && Write(db, room, stage, at, times)))).ToList();
                // Why a stage has no plan is written into it when the plan is asked for.
                foreach (var stage in part.SelectMany(s => s.Stages).Where(s => !planned.ContainsKey(s.Id)))
                {
                    db.Entry(stage).DetectChanges();
                }

                await using var transaction = await db.BeginWriteAsync(cancel);
                int[] ids = [.. part.Select(s => s.Id)];
                var versions = await db.Sheets.AsNoTracking().Where(s => ids.Contains(s.Id)).Select(s => new { s.Id, s.Version }).ToDictionaryAsync(s => s.Id, s => s.Version, cancel);
                var its = new List<int>();
                var onlyTimes = new List<Stage>();
                foreach (var (sheet, moved) in changed)
                {
                    if (versions.GetValueOrDefault(sheet.Id, -1) != sheet.Version)
                    {
                        // What was recorded since the plan read this sheet stands; the next plan knows it.
                        passedOver = true;
                        sheet.Stages.ForEach(stage => db.Entry(stage).State = EntityState.Unchanged);
                    }
                    else if (moved.Count > 0)
                    {
                        stages += moved.Count;
                        its.Add(sheet.Id);
                        onlyTimes.AddRange(moved.Where(stage => PlannedTimes.AreAll(db.Entry(stage))));
                    }
                }

                await PlannedTimes.WriteAsync(db, its, onlyTimes, cancel);
                await db.SaveChangesAsync(cancel);
                await transaction.CommitAsync(cancel);
                written.AddRange(its);
            }
        }
        finally
        {
            // If a later part fails, the earlier ones stand.
            events.TellChanged(written);
        }

        // What was known of the last plan is shown until this one is simulated, a moment later.
        book.Set(book.Now is { } last ? last with { Live = live } : new RoomPlan(live, NoOutlooks, NoCritical));
        if (passedOver)
        {
            events.AskForPlan();
        }

        return stages;
    }

    private static readonly Dictionary<int, TicketOutlook> NoOutlooks = [];
    private static readonly Dictionary<int, CriticalStage> NoCritical = [];

    private static Plan AsWritten(List<Sheet> sheets) => new(
    [
        .. sheets.SelectMany(s => s.Stages)
            .Where(t => t.State == StageState.Waiting && t.EquipmentId is not null && t.PlannedStartUtc is not null && t.PlannedFinishUtc is not null)
            .Select(t => new PlannedStage(t.SheetId, t.Id, t.EquipmentId!.Value, t.PlannedStartUtc!.Value, t.PlannedFinishUtc!.Value, t.DueByUtc ?? t.PlannedFinishUtc.Value)),
    ]);

    private static async Task<(List<Sheet> Sheets, List<PlanTicket> Tickets)> ReadAsync(PlateRoomDb db, CancellationToken cancel)
    {
        // The stages come to their sheets by their tracking: an Include makes delegates anew for every row that it reads. What is scanned between the two
        // has another version when the plan is written, and is left as it is.
        var sheets = await db.Sheets.Where(s => s.State == SheetState.Waiting || s.State == SheetState.Running).OrderBy(s => s.Id).ToListAsync(cancel);
        await db.Stages.Where(t => t.Sheet!.State == SheetState.Waiting || t.Sheet.State == SheetState.Running).OrderBy(t => t.Id).LoadAsync(cancel);
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

    private static bool Write(PlateRoomDb db, Room room, Stage stage, PlannedStage planned, StageTimesByMachine times)
    {
        stage.PlannedStartUtc = planned.StartUtc;
        stage.PlannedFinishUtc = planned.FinishUtc;
        stage.DueByUtc = planned.DueByUtc;
        if (stage.State == StageState.Waiting)
        {
            StageTiming.Write(stage, room.EquipmentById(planned.EquipmentId)!, times[(stage.Id, planned.EquipmentId)]);
        }

        var entry = db.Entry(stage);
        entry.DetectChanges();
        return entry.State == EntityState.Modified;
    }
}
