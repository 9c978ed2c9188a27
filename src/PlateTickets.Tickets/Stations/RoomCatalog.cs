using Microsoft.EntityFrameworkCore;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Stations;

/// <summary>Keeps one <see cref="Room"/> in memory for everybody and reads it again only after a change.</summary>
public sealed class RoomCatalog(IDbContextFactory<PlateRoomDb> databases, TimeProvider clock) : IDisposable
{
    // As long as a stage may have waited for it, a past downtime can still explain something.
    private static readonly TimeSpan PastKept = TimeSpan.FromDays(2);

    private readonly SemaphoreSlim _reading = new(1, 1);
    private readonly Lock _gate = new();
    private volatile Room? _room;
    private int _forgotten;

    public async ValueTask<Room> GetAsync(CancellationToken cancel = default)
    {
        if (_room is { } known)
        {
            return known;
        }

        await _reading.WaitAsync(cancel);
        try
        {
            while (true)
            {
                if (_room is { } meanwhile)
                {
                    return meanwhile;
                }

                var before = Volatile.Read(ref _forgotten);
                var read = await ReadAsync(cancel);
                lock (_gate)
                {
                    // A change during the reading may be missing in it: what was read is then old already, and would stay.
                    if (before == _forgotten)
                    {
                        return _room = read;
                    }
                }
            }
        }
        finally
        {
            _reading.Release();
        }
    }

    /// <summary>Call after a change to equipment, readings, materials, recipes, presses, shifts, downtimes or people on duty.</summary>
    public void Forget()
    {
        lock (_gate)
        {
            _forgotten++;
            _room = null;
        }

        Forgotten?.Invoke();
    }

    /// <summary>Told when something of the room changed. Handlers must be quick.</summary>
    public event Action? Forgotten;

    public void Dispose() => _reading.Dispose();

    private async Task<Room> ReadAsync(CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var site = await db.Sites.AsNoTracking().Include(s => s.Shifts).Include(s => s.ClosedDays).AsSplitQuery().SingleAsync(cancel);
        var equipment = await db.Equipment.AsNoTracking().OrderBy(e => e.Id).ToListAsync(cancel);
        var newest = await db.LampReadings.AsNoTracking()
            .GroupBy(r => new { r.EquipmentId, r.Bank })
            .Select(g => g.OrderByDescending(r => r.ReadUtc).ThenByDescending(r => r.Id).First())
            .ToListAsync(cancel);
        var since = clock.GetUtcNow().UtcDateTime - PastKept;
        return new Room
        {
            Site = site,
            Zone = TimeZoneInfo.FindSystemTimeZoneById(site.TimeZoneId),
            Equipment = equipment,
            Facts = equipment.ToDictionary(e => e.Id, e => Facts(e, newest)),
            Materials = await db.Materials.AsNoTracking().ToDictionaryAsync(m => m.Id, cancel),
            Revisions = await db.RecipeRevisions.AsNoTracking().ToDictionaryAsync(r => r.Id, cancel),
            Downtimes = await db.Downtimes.AsNoTracking().Where(d => d.ToUtc > since).OrderBy(d => d.FromUtc).ToListAsync(cancel),
            DutyChanges = await db.DutyChanges.AsNoTracking().Where(d => d.ToUtc > since).OrderBy(d => d.FromUtc).ToListAsync(cancel),
            StockSizes = await db.StockSizes.AsNoTracking().ToListAsync(cancel),
            Presses = await db.Presses.AsNoTracking().Include(p => p.Cylinders).OrderBy(p => p.Name).ToListAsync(cancel),
        };
    }

    private static EquipmentFacts Facts(Equipment equipment, List<LampReadingEntry> newest)
    {
        LampReading? Reading(LampBank bank) =>
            newest.Find(r => r.EquipmentId == equipment.Id && r.Bank == bank) is { } entry
                ? new LampReading(entry.IrradianceMwPerCm2, entry.ReadUtc)
                : null;

        return new EquipmentFacts
        {
            Name = equipment.Name,
            BackLamps = Reading(LampBank.Back),
            FaceLamps = Reading(LampBank.Face),
            ReadingValidHours = equipment.ReadingValidHours,
            DrumRpm = equipment.DrumRpm,
            LaserChannels = equipment.LaserChannels,
            LineLengthMm = equipment.LineLengthMm,
            LineGapMm = equipment.LineGapMm,
        };
    }
}
