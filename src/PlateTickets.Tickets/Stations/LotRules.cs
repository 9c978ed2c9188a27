using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>The label of a lot, read after a sheet that has not come past its first stage: is it the planned one?</summary>
internal sealed class LotRules(ScanContext at)
{
    /// <summary>Null when no lot of the sheet's material has that label, or the sheet is past its first stage.</summary>
    public async Task<ScanVerdict?> DecideAsync(string code, Sheet sheet, CancellationToken cancel)
    {
        var first = sheet.Stages.MinBy(s => s.Station)!;
        if (first.State == StageState.Done || sheet.State is SheetState.Done or SheetState.Cancelled)
        {
            return null;
        }

        var lots = await at.Db.StockLots.Where(l => l.StockSize!.MaterialId == sheet.MaterialId).Select(l => l.Lot).Distinct().ToListAsync(cancel);
        if (lots.Find(l => ScanText.Clean(l) == code) is not { } lot)
        {
            return null;
        }

        var finding = ReadingRules.Lot(sheet, lot);
        var reading = finding.Of(sheet, first.Station, at.Equipment.Id, at.Utc, at.Request.By);
        at.ActsOn(reading, sheet);
        at.Db.StageReadings.Add(reading);
        return finding.InLimits
            ? new(ScanOutcome.LotRight, $"{finding.Sentence} Go on.", first.Station)
            : new(ScanOutcome.OtherLot, $"Sheet {TrackingNumber.ForPeople(sheet.Number)}: {finding.Sentence} Take a sheet of the planned lot, or let the lead accept this one with a reason.", first.Station);
    }
}
