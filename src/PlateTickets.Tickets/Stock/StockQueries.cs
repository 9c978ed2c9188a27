using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Stock;

/// <summary>What lies on the shelf, what will be taken from it, and when it runs out.</summary>
public sealed class StockQueries(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, LayoutDesk layouts, TimeProvider clock)
{
    public const int DaysBack = 28;

    private const int WarnDaysAhead = 14;
    private const int ExpiryDaysAhead = 30;
    private const int MostRemnants = 100;

    // Enough to know how many sheets they will be about.
    private static readonly NestEffort Glance = new(20_000);

    public async Task<IReadOnlyList<MaterialStock>> ReadAsync(CancellationToken cancel = default)
    {
        var room = await rooms.GetAsync(cancel);
        var now = clock.GetUtcNow().UtcDateTime;
        var today = DateOnly.FromDateTime(SiteClock.Local(now, room.Zone));
        await using var db = await databases.CreateDbContextAsync(cancel);
        var sizes = await db.StockSizes.AsNoTracking().Include(s => s.Lots.Where(l => l.Sheets > 0)).OrderBy(s => s.Id).ToListAsync(cancel);
        var counted = await db.StockLots.Select(l => l.StockSizeId).Distinct().ToListAsync(cancel);
        var since = now.AddDays(-DaysBack);
        var used = await db.Sheets.Where(s => s.MadeUtc >= since && (s.State != SheetState.Cancelled || db.Remakes.Any(r => r.SheetId == s.Id)) && s.RemnantMark == "")
            .GroupBy(s => new { s.MaterialId, Width = s.FromWidthUm == 0 ? s.WidthUm : s.FromWidthUm, Length = s.FromLengthUm == 0 ? s.LengthUm : s.FromLengthUm })
            .Select(g => new { g.Key, Count = g.Count() }).ToListAsync(cancel);
        var taken = await db.Sheets.Where(s => s.State == SheetState.Waiting && s.RemnantMark == "" && s.Stages.All(t => t.State == StageState.Waiting))
            .Select(s => new
            {
                s.MaterialId,
                Width = s.FromWidthUm == 0 ? s.WidthUm : s.FromWidthUm,
                Length = s.FromLengthUm == 0 ? s.LengthUm : s.FromLengthUm,
                Start = s.Stages.Min(t => t.PlannedStartUtc),
            })
            .ToListAsync(cancel);
        var remnants = (await db.Remnants.AsNoTracking().Where(r => r.TakenBySheetId == null && r.GoneBecause == "")
            .OrderByDescending(r => (long)r.WidthUm * r.LengthUm).Take(MostRemnants).ToListAsync(cancel)).ToLookup(r => r.MaterialId);
        var waiting = await WaitingAsync(room, cancel);
        return [.. room.Materials.Values.OrderBy(m => m.Name).Select(m => new MaterialStock(
            m.Id,
            [.. sizes.Where(s => s.MaterialId == m.Id).Select(s =>
            {
                var begun = taken.Where(t => t.MaterialId == m.Id && t.Width == s.WidthUm && t.Length == s.LengthUm).ToList();
                return Line(
                    s, counted.Contains(s.Id), begun.Count, begun.Max(t => t.Start), waiting.GetValueOrDefault(s.Id),
                    used.Find(u => u.Key.MaterialId == m.Id && u.Key.Width == s.WidthUm && u.Key.Length == s.LengthUm)?.Count ?? 0, today);
            })],
            [.. remnants[m.Id]]))];
    }

    private async Task<Dictionary<int, int>> WaitingAsync(Room room, CancellationToken cancel)
    {
        var bySize = new Dictionary<int, int>();
        foreach (var material in await layouts.MaterialsAsync(cancel))
        {
            var plates = await layouts.WaitingAsync(material.MaterialId, cancel);
            var shelf = await layouts.ShelfAsync(material.MaterialId, plates.Count, cancel);
            foreach (var sheet in shelf.Lay(LayoutProposal.PlatesOf(plates), room.NestRules, Glance).Sheets)
            {
                if (shelf.Choices[sheet.StockId].Size is { } size)
                {
                    bySize[size.Id] = bySize.GetValueOrDefault(size.Id) + 1;
                }
            }
        }

        return bySize;
    }

    private static StockLine Line(StockSize size, bool counted, int taken, DateTime? lastStart, int waiting, int used, DateOnly today)
    {
        if (!counted)
        {
            return new StockLine(size, null, taken, lastStart, waiting, used, null, []);
        }

        var free = size.Lots.Where(l => l.IsGoodOn(today)).Sum(l => l.Sheets);
        var left = Math.Max(0, free - waiting);
        DateOnly? until = used == 0 ? null : today.AddDays((int)Math.Min(3650, (double)left * DaysBack / used));
        var warnings = new List<string>();
        if (free < waiting)
        {
            warnings.Add($"The plates that wait for a layout need {waiting} {Sheets(waiting)}, {waiting - free} more than there are: order now.");
        }
        else if (left < size.LeastSheets)
        {
            warnings.Add($"{left} {Sheets(left)} will be left, fewer than the least level of {size.LeastSheets}: order now.");
        }

        if (until is { } end && end <= today.AddDays(WarnDaysAhead))
        {
            warnings.Add(left == 0 ? "No free sheet will be left." : $"At the pace of the last {DaysBack} days the free sheets last until {end:d MMM}.");
        }

        foreach (var lot in size.Lots.OrderBy(l => l.ExpiresOn))
        {
            if (!lot.IsGoodOn(today))
            {
                warnings.Add($"Lot {lot.Lot} expired on {lot.ExpiresOn:d MMM yyyy}: its {lot.Sheets} {Sheets(lot.Sheets)} are not used any more. Count them as 0 when they are thrown away.");
            }
            else if (lot.ExpiresOn is { } last && last <= today.AddDays(ExpiryDaysAhead))
            {
                warnings.Add($"Lot {lot.Lot} expires on {last:d MMM yyyy}: {lot.Sheets} {Sheets(lot.Sheets)}. It is used first.");
            }
        }

        return new StockLine(size, free, taken, lastStart, waiting, used, until, warnings);
    }

    private static string Sheets(int count) => count == 1 ? "sheet" : "sheets";
}
