using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Board;

/// <summary>Reads the stages that the timeline shows: running, planned, or finished a short while ago.</summary>
public sealed class TimelineQueries(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
{
    /// <summary>How long a finished stage stays in sight.</summary>
    public static readonly TimeSpan FinishedShownFor = TimeSpan.FromHours(2);

    public async Task<List<TimelineStage>> AllAsync(CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await ReadAsync(db.Stages, cancel);
    }

    public async Task<List<TimelineStage>> OfSheetsAsync(IReadOnlyCollection<int> sheetIds, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await ReadAsync(db.Stages.Where(s => sheetIds.Contains(s.SheetId)), cancel);
    }

    // The plan leaves out a sheet on hold: the times of its waiting stages are old, and would lie over those of others.
    private async Task<List<TimelineStage>> ReadAsync(IQueryable<Stage> stages, CancellationToken cancel)
    {
        var finishedSince = clock.GetUtcNow().UtcDateTime - FinishedShownFor;
        // Two questions, each by its index: together they would go through every stage that ever was.
        var finished = await ShownAsync(stages.Where(s => s.State == StageState.Done && s.Sheet!.State != SheetState.Cancelled && s.StartedUtc != null && s.FinishedUtc >= finishedSince), cancel);
        var open = await ShownAsync(
            stages.Where(s => s.Sheet!.State == SheetState.Waiting || s.Sheet!.State == SheetState.Running || s.Sheet!.State == SheetState.OnHold)
                .Where(s => (s.State == StageState.Running && s.StartedUtc != null && s.PlannedFinishUtc != null)
                    || (s.State == StageState.Waiting && s.Sheet!.State != SheetState.OnHold && s.PlannedStartUtc != null && s.PlannedFinishUtc != null)),
            cancel);
        return [.. finished.Concat(open).OrderBy(s => s.Id)];
    }

    private static Task<List<TimelineStage>> ShownAsync(IQueryable<Stage> stages, CancellationToken cancel) =>
        stages
            .Where(s => s.EquipmentId != null)
            .Select(s => new TimelineStage(
                s.Id, s.SheetId, s.Station, s.State, s.EquipmentId!.Value,
                s.State == StageState.Waiting ? s.PlannedStartUtc!.Value : s.StartedUtc!.Value,
                s.State == StageState.Done ? s.FinishedUtc!.Value : s.PlannedFinishUtc!.Value,
                s.DueByUtc, s.LoadSeconds, s.RunSeconds, s.UnloadSeconds, s.RunIsAttended))
            .ToListAsync(cancel);
}
