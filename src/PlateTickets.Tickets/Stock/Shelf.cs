using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Stock;

/// <summary>Something on the shelf that a layout may use: sheets of a lot, sheets that are not counted, or one remnant.</summary>
public sealed record ShelfChoice(NestStock Stock, StockSize? Size, StockLot? Lot, Remnant? Remnant)
{
    public bool IsCounted => Lot is not null || Remnant is not null;

    public string LotName => Lot?.Lot ?? Remnant?.Lot ?? "";
}

/// <summary>What a material's layouts may use now. The stock ids are places in this list.</summary>
public sealed record Shelf(IReadOnlyList<ShelfChoice> Choices)
{
    // More remnants than this are a heap, not a shelf: the largest are offered.
    private const int MostRemnants = 60;

    public IReadOnlyList<NestStock> Stocks { get; } = [.. Choices.Select(c => c.Stock)];

    /// <summary>Lots that have not expired, those that expire first in front; as many as the plates can need. Tracked by the context.</summary>
    public static async Task<Shelf> ReadAsync(PlateRoomDb db, Room room, int materialId, int plates, DateTime nowUtc, CancellationToken cancel)
    {
        var today = DateOnly.FromDateTime(SiteClock.Local(nowUtc, room.Zone));
        var sizes = await db.StockSizes.Include(s => s.Lots.Where(l => l.Sheets > 0)).Where(s => s.MaterialId == materialId).OrderBy(s => s.Id).ToListAsync(cancel);
        // Lots that are used up still say that the size is counted, but years of them need not be read.
        var counted = await db.StockLots.Where(l => l.StockSize!.MaterialId == materialId).Select(l => l.StockSizeId).Distinct().ToListAsync(cancel);
        var remnants = await db.Remnants
            .Where(r => r.MaterialId == materialId && r.TakenBySheetId == null && r.GoneBecause == "" && (r.ExpiresOn == null || r.ExpiresOn >= today))
            .OrderByDescending(r => (long)r.WidthUm * r.LengthUm).Take(MostRemnants).ToListAsync(cancel);
        var lotNumbers = new Dictionary<string, int> { [""] = 0 };
        var choices = new List<ShelfChoice>();
        foreach (var size in sizes)
        {
            if (!counted.Contains(size.Id))
            {
                Add(size.WidthUm, size.LengthUm, null, "", size, null, null);
                continue;
            }

            var enough = 0;
            foreach (var lot in size.Lots.Where(l => l.IsGoodOn(today)).OrderBy(l => l.ExpiresOn ?? DateOnly.MaxValue).ThenBy(l => l.Id))
            {
                if (enough < Math.Max(1, plates))
                {
                    Add(size.WidthUm, size.LengthUm, lot.Sheets, lot.Lot, size, lot, null);
                    enough += lot.Sheets;
                }
            }
        }

        foreach (var remnant in remnants)
        {
            Add(remnant.WidthUm, remnant.LengthUm, 1, remnant.Lot, null, null, remnant);
        }

        return new Shelf(choices);

        void Add(int width, int length, int? copies, string lot, StockSize? size, StockLot? from, Remnant? remnant)
        {
            if (!lotNumbers.TryGetValue(lot, out var number))
            {
                lotNumbers[lot] = number = lotNumbers.Count;
            }

            choices.Add(new ShelfChoice(new NestStock(choices.Count, width, length) { Copies = copies, Lot = number }, size, from, remnant));
        }
    }

    /// <summary>The remnant worth cutting off a sheet of the layout before it is exposed, or null. Where sheets are not counted nobody would look for one.</summary>
    public RemnantCut? CutOf(Room room, NestSheet sheet) => sheet.Plates.Count > 0 && Choices[sheet.StockId].IsCounted
        ? RemnantCut.Of(sheet, room.NestRules, room.Site.LeastRemnantUm)
        : null;

    /// <summary>A sheet of the layout as it will go through the room, without its remnant.</summary>
    public NestSheet AsMade(Room room, NestSheet sheet) => CutOf(room, sheet) is { } cut ? sheet with { Width = cut.KeptWidth, Length = cut.KeptLength } : sheet;

    /// <summary>A set stays on one lot where there are enough sheets of it; else least sheet counts.</summary>
    public NestResult Lay(IReadOnlyList<NestPlate> plates, NestRules rules, NestEffort? effort = null)
    {
        var oneLot = PlateNesting.Nest(plates, Stocks, rules with { OneLotPerSet = true }, effort);
        if (oneLot.NoSheetLeft.Count == 0)
        {
            return oneLot;
        }

        var anyLot = PlateNesting.Nest(plates, Stocks, rules, effort);
        return anyLot.NoSheetLeft.Count < oneLot.NoSheetLeft.Count ? anyLot : oneLot;
    }
}
