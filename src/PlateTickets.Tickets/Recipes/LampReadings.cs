using System.Globalization;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Recipes;

/// <summary>Takes radiometer readings in. A new reading re-times every exposure that has not started.</summary>
public sealed class LampReadings(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events, TimeProvider clock)
{
    /// <exception cref="PlateRoomException">The value cannot be a frame's UV-A irradiance.</exception>
    public async Task AddAsync(int equipmentId, LampBank bank, double irradianceMwPerCm2, string by, CancellationToken cancel = default)
    {
        if (irradianceMwPerCm2 is not (>= 0.5 and <= 200))
        {
            throw new PlateRoomException(string.Create(
                CultureInfo.InvariantCulture,
                $"{irradianceMwPerCm2:0.##} mW/cm² is outside 0.5 to 200, where the lamps of an exposure frame are: check the radiometer's range and unit."));
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        db.LampReadings.Add(new LampReadingEntry
        {
            EquipmentId = equipmentId,
            Bank = bank,
            IrradianceMwPerCm2 = irradianceMwPerCm2,
            ReadUtc = clock.GetUtcNow().UtcDateTime,
            ReadBy = by,
        });
        await db.SaveChangesAsync(cancel);
        rooms.Forget();
        events.AskForPlan();
    }

    /// <summary>The newest readings of all frames, newest first.</summary>
    public async Task<List<LampReadingEntry>> LatestAsync(int take, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.LampReadings.AsNoTracking().OrderByDescending(r => r.ReadUtc).ThenByDescending(r => r.Id).Take(take).ToListAsync(cancel);
    }
}
