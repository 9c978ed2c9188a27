using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;

namespace PlateTickets.Tickets.Board;

/// <summary>The goals of a shift.</summary>
/// <param name="TakenUtc">When the plan was asked.</param>
/// <param name="Sheets">By station.</param>
public sealed record GoalsOfShift(DateTime TakenUtc, IReadOnlyDictionary<Station, int> Sheets);

/// <summary>Keeps the goals of the shifts.</summary>
public sealed class ShiftGoals(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock)
{
    /// <summary>The goals of a shift; null when none were taken.</summary>
    public async Task<GoalsOfShift?> FindAsync(ShiftDay shift, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var goals = await db.ShiftGoals.AsNoTracking().Where(g => g.ShiftName == shift.Name && g.ShiftStartUtc == shift.StartUtc).ToListAsync(cancel);
        return goals.Count == 0 ? null : new GoalsOfShift(goals[0].TakenUtc, goals.ToDictionary(g => g.Station, g => g.Sheets));
    }

    /// <summary>Takes the goals of a shift, once; whoever comes second gets those of the first.</summary>
    public async Task<GoalsOfShift> TakeAsync(ShiftDay shift, IReadOnlyDictionary<Station, int> sheets, CancellationToken cancel = default)
    {
        if (await FindAsync(shift, cancel) is { } known)
        {
            return known;
        }

        var now = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ShiftGoals.AddRange(Process.Stations.InOrder.Select(s => new ShiftGoal
        {
            ShiftName = shift.Name,
            ShiftStartUtc = shift.StartUtc,
            Station = s,
            Sheets = sheets.GetValueOrDefault(s),
            TakenUtc = now,
        }));
        try
        {
            await db.SaveChangesAsync(cancel);
            return new GoalsOfShift(now, sheets);
        }
        catch (DbUpdateException) when (!cancel.IsCancellationRequested)
        {
            // Somebody else took them in this moment; anything else that is wrong shows in the second look.
            return await FindAsync(shift, cancel) ?? throw new InvalidOperationException($"The goals of {shift.Name} could not be kept.");
        }
    }
}
