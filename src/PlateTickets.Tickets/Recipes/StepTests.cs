using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Recipes;

/// <summary>Takes step tests in and finds them again.</summary>
public sealed class StepTests(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, TimeProvider clock)
{
    /// <exception cref="PlateRoomException">No curve can be fitted; the sentences say why.</exception>
    public async Task<int> AddAsync(StepTestEntry test, CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        if (!room.Materials.TryGetValue(test.MaterialId, out var material) || room.EquipmentById(test.EquipmentId) is null)
        {
            throw new PlateRoomException("Choose the material and the frame of the test.");
        }

        var refusals = test.ToTest(material).Refusals();
        if (refusals.Count > 0)
        {
            throw new PlateRoomException(string.Join(" ", refusals));
        }

        test.MadeUtc = clock.GetUtcNow().UtcDateTime;
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = test.MadeBy;
        db.Clock = clock;
        db.StepTests.Add(test);
        await db.SaveChangesAsync(cancel);
        return test.Id;
    }

    public async Task<StepTestEntry?> FindAsync(int id, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.StepTests.AsNoTracking().Include(t => t.Material).SingleOrDefaultAsync(t => t.Id == id, cancel);
    }

    /// <summary>The newest tests first.</summary>
    public async Task<List<StepTestEntry>> LatestAsync(int take, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.StepTests.AsNoTracking().Include(t => t.Material).OrderByDescending(t => t.MadeUtc).ThenByDescending(t => t.Id).Take(take).ToListAsync(cancel);
    }
}
