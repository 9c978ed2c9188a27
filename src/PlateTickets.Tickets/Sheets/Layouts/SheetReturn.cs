using Microsoft.EntityFrameworkCore;

namespace PlateTickets.Tickets.Sheets.Layouts;

/// <summary>Makes raw sheets that were not started stock again.</summary>
internal static class SheetReturn
{
    /// <summary>
    /// Counts the sheets into their lots and gives up the remnants that were to be cut off them. A sheet whose remnant is used by another sheet is cut
    /// already: it is not counted back.
    /// </summary>
    public static async Task PutBackAsync(PlateRoomDb db, IReadOnlyCollection<Sheet> sheets, string because, CancellationToken cancel)
    {
        var ids = sheets.Select(s => s.Id).ToList();
        var cut = new HashSet<int>();
        foreach (var remnant in await db.Remnants.Where(r => ids.Contains(r.FromSheetId)).ToListAsync(cancel))
        {
            if (remnant.TakenBySheetId is not null && !ids.Contains(remnant.TakenBySheetId.Value))
            {
                cut.Add(remnant.FromSheetId);
            }
            else
            {
                remnant.GoneBecause = because;
            }
        }

        foreach (var remnant in await db.Remnants.Where(r => r.TakenBySheetId != null && ids.Contains(r.TakenBySheetId.Value)).ToListAsync(cancel))
        {
            remnant.TakenBySheetId = null;
        }

        var lots = sheets.Where(s => s.StockLotId is not null && !cut.Contains(s.Id)).CountBy(s => s.StockLotId!.Value).ToDictionary();
        foreach (var lot in await db.StockLots.Where(l => lots.Keys.Contains(l.Id)).ToListAsync(cancel))
        {
            lot.Sheets += lots[lot.Id];
        }
    }
}
