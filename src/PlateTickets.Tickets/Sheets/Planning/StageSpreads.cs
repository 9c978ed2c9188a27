using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>
/// Learns from finished stages how real times scatter about the computed ones, for each station. What is compared is the time
/// from the start scan to the finish scan with the time to the earliest unloading in working time, so that a sheet that ran
/// through the night says nothing about the station.
/// </summary>
public sealed class StageSpreads(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, TimeProvider clock)
{
    /// <summary>A room that has recorded nothing yet: twelve percent up or down, a judgement of this project from no source.</summary>
    public static readonly TimeSpread Unknown = new(0, 0.12);

    // The first guess counts as much as so many stages.
    private const int GuessCounts = 10;
    private const int MostStages = 4000;

    // Outside of this somebody forgot to scan; that is no time of work.
    internal const double LeastRatio = 0.3, MostRatio = 4;
    private static readonly TimeSpan LookBack = TimeSpan.FromDays(60);
    private static readonly TimeSpan LearnEvery = TimeSpan.FromHours(1);

    private volatile Learned? _learned;

    /// <summary>The spread of each station, learned anew when the last time was an hour ago.</summary>
    public async ValueTask<IReadOnlyDictionary<Station, TimeSpread>> GetAsync(CancellationToken cancel = default)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        if (_learned is { } known && now - known.AtUtc < LearnEvery)
        {
            return known.Spreads;
        }

        var learned = new Learned(now, await LearnAsync(now, cancel));
        _learned = learned;
        return learned.Spreads;
    }

    /// <summary>Mean and standard deviation of the logarithms of the ratios, drawn towards <see cref="Unknown"/> while there are few.</summary>
    public static TimeSpread Of(IReadOnlyCollection<double> ratios)
    {
        var logs = ratios.Where(r => r is >= LeastRatio and <= MostRatio).Select(r => Math.Log(r)).ToList();
        var count = logs.Count + GuessCounts;
        var mean = (logs.Sum() + (GuessCounts * Unknown.LogMean)) / count;
        var squares = logs.Sum(l => (l - mean) * (l - mean)) + (GuessCounts * (Math.Pow(Unknown.LogDeviation, 2) + Math.Pow(mean - Unknown.LogMean, 2)));
        return new TimeSpread(mean, Math.Sqrt(squares / count));
    }

    /// <summary>The time taken over the computed time to the earliest unloading in working time; 1 where nothing was computed.</summary>
    internal static double Ratio(WorkingTime working, DateTime started, DateTime finished, int loadSeconds, int runSeconds, int unloadSeconds)
    {
        var over = started.AddSeconds(loadSeconds + runSeconds);
        var unload = TimeSpan.FromSeconds(unloadSeconds);
        var expected = (working.EarliestStart(over, unload) ?? over) + unload - started;
        return expected > TimeSpan.Zero ? (finished - started) / expected : 1;
    }

    private async Task<IReadOnlyDictionary<Station, TimeSpread>> LearnAsync(DateTime now, CancellationToken cancel)
    {
        var room = await rooms.GetAsync(cancel);
        var since = now - LookBack;
        await using var db = await databases.CreateDbContextAsync(cancel);
        var stages = await db.Stages.AsNoTracking()
            .Where(s => s.State == StageState.Done && s.FinishedUtc >= since && s.StartedUtc != null && s.SkippedBecause == "")
            .OrderByDescending(s => s.FinishedUtc).Take(MostStages)
            .Select(s => new { s.Station, Started = s.StartedUtc!.Value, Finished = s.FinishedUtc!.Value, s.LoadSeconds, s.RunSeconds, s.UnloadSeconds })
            .ToListAsync(cancel);
        var working = room.WorkingBetween(since - LookBack, now.AddDays(7));
        var ratios = stages.ToLookup(s => s.Station, s => Ratio(working, s.Started, s.Finished, s.LoadSeconds, s.RunSeconds, s.UnloadSeconds));
        return Process.Stations.InOrder.ToDictionary(s => s, s => Of([.. ratios[s]]));
    }

    private sealed record Learned(DateTime AtUtc, IReadOnlyDictionary<Station, TimeSpread> Spreads);
}
