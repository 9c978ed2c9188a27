using Microsoft.EntityFrameworkCore;
using PlateTickets.Process.Units;

namespace PlateTickets.Tickets.Stations;

/// <summary>Changes the room's own settings.</summary>
public sealed class SiteSettings(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, RoomEvents events)
{
    /// <summary>In which units the room reads lengths. The waiting stages explain themselves anew.</summary>
    public async Task SetUnitsAsync(LengthSystem units, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var site = await db.Sites.SingleAsync(cancel);
        site.Units = units;
        await db.SaveChangesAsync(cancel);
        rooms.Forget();
        events.AskForPlan();
    }
}
