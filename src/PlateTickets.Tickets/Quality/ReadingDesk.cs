using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Quality;

/// <summary>Where readings belong: a sheet at a station, on a machine.</summary>
public sealed record ReadingPlace(string SheetNumber, Station Station, int EquipmentId);

/// <summary>Takes readings of sheets in, and what is decided when one is out of limits.</summary>
public sealed class ReadingDesk(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, LampReadings lamps, RoomEvents events, TimeProvider clock)
{
    /// <summary>A length in mm.</summary>
    /// <exception cref="PlateRoomException">It cannot be, or the station does not own it.</exception>
    public Task<Finding> LengthAsync(ReadingPlace place, ReadingKind kind, double mm, LengthSystem units, string by, CancellationToken cancel = default) =>
        KeepAsync(place, kind, (sheet, room) => ReadingRules.Number(kind, mm, room.Revisions[sheet.RecipeRevisionId].Settings, room.Materials[sheet.MaterialId], units), by, cancel);

    /// <summary>A radiometer reading of the frame in mW/cm2: it re-times every exposure that has not started, and is held against this sheet's recipe.</summary>
    /// <exception cref="PlateRoomException">No lamps of a frame are so.</exception>
    public async Task<Finding> LampsAsync(ReadingPlace place, double mwPerCm2, string by, CancellationToken cancel = default)
    {
        await lamps.AddAsync(place.EquipmentId, place.Station == Station.BackExposure ? LampBank.Back : LampBank.Face, mwPerCm2, by, cancel);
        return await KeepAsync(
            place, ReadingKind.Lamps,
            (sheet, room) => ReadingRules.Number(ReadingKind.Lamps, mwPerCm2, room.Revisions[sheet.RecipeRevisionId].Settings, room.Materials[sheet.MaterialId], LengthSystem.Metric),
            by, cancel);
    }

    /// <exception cref="PlateRoomException">The lot is empty.</exception>
    public Task<Finding> LotAsync(ReadingPlace place, string lot, string by, CancellationToken cancel = default) =>
        KeepAsync(
            place, ReadingKind.Lot,
            (sheet, _) => ReadingRules.Lot(sheet, lot.Trim().Length is > 0 and <= 40 ? lot.Trim() : throw new PlateRoomException("Type or scan the lot that stands on the sheet's label: 1 to 40 characters.")),
            by, cancel);

    public Task<Finding> VisualAsync(ReadingPlace place, IReadOnlyCollection<PlateDefect> defects, string by, CancellationToken cancel = default) =>
        KeepAsync(place, ReadingKind.Visual, (_, _) => ReadingRules.Visual(defects), by, cancel);

    /// <summary>Accepts what is out of limits: the sheet goes on. A lot that is accepted becomes the sheet's, and is counted so.</summary>
    /// <exception cref="PlateRoomException">Without a reason, or decided already.</exception>
    public async Task AcceptAsync(int readingId, string reason, string by, CancellationToken cancel = default)
    {
        if (string.IsNullOrWhiteSpace(reason))
        {
            throw new PlateRoomException("Say why it is accepted: whoever finds the plate on press will ask.");
        }

        await using var db = await OpenAsync(by, cancel);
        var reading = await OpenReadingAsync(db, readingId, cancel);
        Decide(reading, ReadingState.Accepted, reason, by);
        if (reading.Kind == ReadingKind.Lot)
        {
            await TakeLotAsync(db, reading, cancel);
        }

        await SaveAsync(db, reading.SheetId, cancel);
    }

    public async Task<IReadOnlyList<StageReading>> OfSheetAsync(int sheetId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.StageReadings.AsNoTracking().Where(r => r.SheetId == sheetId).OrderBy(r => r.Id).ToListAsync(cancel);
    }

    /// <summary>Marks every open reading of a sheet as decided by what happened to the sheet. The caller saves.</summary>
    internal static async Task DecideAllAsync(PlateRoomDb db, int sheetId, ReadingState state, string reason, string by, DateTime nowUtc, CancellationToken cancel)
    {
        foreach (var reading in await db.StageReadings.Where(r => r.SheetId == sheetId && r.State == ReadingState.Open).ToListAsync(cancel))
        {
            (reading.State, reading.Reason, reading.DecidedBy, reading.DecidedUtc) = (state, reason, by, nowUtc);
        }
    }

    private async Task<Finding> KeepAsync(ReadingPlace place, ReadingKind kind, Func<Sheet, Room, Finding> judge, string by, CancellationToken cancel)
    {
        if (!ReadingRules.For(place.Station).Contains(kind))
        {
            throw new PlateRoomException($"{kind.Title()} is not read at {place.Station.Title().ToLowerInvariant()}.");
        }

        var room = await rooms.GetAsync(cancel);
        await using var db = await OpenAsync(by, cancel);
        var sheet = await db.Sheets.SingleOrDefaultAsync(s => s.Number == place.SheetNumber, cancel)
            ?? throw new PlateRoomException($"There is no sheet {TrackingNumber.ForPeople(place.SheetNumber)}.");
        var finding = judge(sheet, room);
        db.StageReadings.Add(finding.Of(sheet, place.Station, place.EquipmentId, clock.GetUtcNow().UtcDateTime, by));
        await SaveAsync(db, sheet.Id, cancel);
        return finding;
    }

    private static async Task TakeLotAsync(PlateRoomDb db, StageReading reading, CancellationToken cancel)
    {
        var sheet = await db.Sheets.SingleAsync(s => s.Id == reading.SheetId, cancel);
        if (sheet.RemnantMark.Length == 0 && sheet.StockLotId is { } planned)
        {
            // The same size of another lot: one sheet less there, one more here.
            var was = await db.StockLots.SingleAsync(l => l.Id == planned, cancel);
            var taken = (await db.StockLots.Where(l => l.StockSizeId == was.StockSizeId).ToListAsync(cancel)).Find(l => ScanText.Clean(l.Lot) == ScanText.Clean(reading.Text));
            if (taken is { Sheets: > 0 })
            {
                was.Sheets++;
                taken.Sheets--;
                sheet.StockLotId = taken.Id;
            }
        }

        sheet.Lot = reading.Text;
    }

    private static async Task<StageReading> OpenReadingAsync(PlateRoomDb db, int id, CancellationToken cancel)
    {
        var reading = await db.StageReadings.SingleOrDefaultAsync(r => r.Id == id, cancel) ?? throw new PlateRoomException("There is no such reading any more.");
        return reading.State == ReadingState.Open ? reading : throw new PlateRoomException($"{reading.DecidedBy} has decided about this reading already.");
    }

    private void Decide(StageReading reading, ReadingState state, string reason, string by) =>
        (reading.State, reading.Reason, reading.DecidedBy, reading.DecidedUtc) = (state, reason.Trim(), by, clock.GetUtcNow().UtcDateTime);

    private async Task<PlateRoomDb> OpenAsync(string by, CancellationToken cancel)
    {
        var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        db.Clock = clock;
        return db;
    }

    private async Task SaveAsync(PlateRoomDb db, int sheetId, CancellationToken cancel)
    {
        await StageDesk.SaveAsync(db, cancel);
        events.TellChanged([sheetId]);
    }
}
