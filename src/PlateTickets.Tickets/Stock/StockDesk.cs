using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Stock;

/// <summary>Deliveries, counts, least levels and remnants that are thrown away.</summary>
public sealed class StockDesk(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, TimeProvider clock)
{
    private const int MostSheets = 100_000;

    /// <summary>Books a delivery in; a lot that is known already gets more sheets.</summary>
    /// <exception cref="PlateRoomException">The lot, the number or the date cannot be right.</exception>
    public async Task ReceiveAsync(int stockSizeId, string lot, int sheets, DateOnly? expiresOn, string by, CancellationToken cancel = default)
    {
        lot = lot.Trim();
        var today = await TodayAsync(cancel);
        Refuse(lot.Length is 0 or > 60, "Type the lot that is printed on the box, at most 60 characters.");
        Refuse(sheets is < 1 or > MostSheets, $"Say how many sheets came: 1 to {MostSheets}.");
        Refuse(expiresOn < today, $"This lot has expired already, on {expiresOn:d MMM yyyy}: check the date on the box.");
        await using var db = await OpenAsync(by, cancel);
        Refuse(!await db.StockSizes.AnyAsync(s => s.Id == stockSizeId, cancel), "Choose the size of the sheets that came.");
        if (await db.StockLots.FirstOrDefaultAsync(l => l.StockSizeId == stockSizeId && l.Lot == lot, cancel) is { } known)
        {
            known.Sheets += sheets;
            known.ExpiresOn = expiresOn ?? known.ExpiresOn;
        }
        else
        {
            db.StockLots.Add(new StockLot { StockSizeId = stockSizeId, Lot = lot, Sheets = sheets, ExpiresOn = expiresOn, ReceivedUtc = clock.GetUtcNow().UtcDateTime });
        }

        await SaveAsync(db, cancel);
        rooms.Forget();
    }

    /// <summary>Sets the free sheets of a lot to what was counted; the audit trail keeps what it was before.</summary>
    /// <exception cref="PlateRoomException">There is no such lot, or the number cannot be right.</exception>
    public async Task CountAsync(int lotId, int sheets, string by, CancellationToken cancel = default)
    {
        Refuse(sheets is < 0 or > MostSheets, $"Type how many free sheets lie there: 0 to {MostSheets}.");
        await using var db = await OpenAsync(by, cancel);
        var lot = await db.StockLots.FindAsync([lotId], cancel) ?? throw new PlateRoomException("There is no such lot any more.");
        lot.Sheets = sheets;
        await SaveAsync(db, cancel);
    }

    /// <exception cref="PlateRoomException">There is no such size, or the number cannot be right.</exception>
    public async Task SetLeastAsync(int stockSizeId, int sheets, string by, CancellationToken cancel = default)
    {
        Refuse(sheets is < 0 or > MostSheets, $"Type the least number of free sheets: 0 to {MostSheets}.");
        await using var db = await OpenAsync(by, cancel);
        var size = await db.StockSizes.FindAsync([stockSizeId], cancel) ?? throw new PlateRoomException("There is no such stock size any more.");
        size.LeastSheets = sheets;
        await SaveAsync(db, cancel);
        rooms.Forget();
    }

    /// <exception cref="PlateRoomException">It is not there any more, or no reason was given.</exception>
    public async Task ThrowAwayAsync(int remnantId, string reason, string by, CancellationToken cancel = default)
    {
        Refuse(reason.Trim().Length is 0 or > 200, "Say why the remnant is thrown away, in at most 200 characters.");
        await using var db = await OpenAsync(by, cancel);
        var remnant = await db.Remnants.FindAsync([remnantId], cancel);
        Refuse(remnant is not { IsThere: true }, "This remnant is not there any more.");
        remnant!.GoneBecause = reason.Trim();
        await SaveAsync(db, cancel);
    }

    private async Task<DateOnly> TodayAsync(CancellationToken cancel) =>
        DateOnly.FromDateTime(SiteClock.Local(clock.GetUtcNow().UtcDateTime, (await rooms.GetAsync(cancel)).Zone));

    private async Task<PlateRoomDb> OpenAsync(string by, CancellationToken cancel)
    {
        var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        return db;
    }

    private static async Task SaveAsync(PlateRoomDb db, CancellationToken cancel)
    {
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("Somebody else has changed this stock a moment ago: look at the new figures and try again.");
        }
    }

    private static void Refuse(bool wrong, string sentence)
    {
        if (wrong)
        {
            throw new PlateRoomException(sentence);
        }
    }
}
