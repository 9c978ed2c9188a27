using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Sheets.Layouts;

/// <summary>Makes the sheets of a layout out of what lies on the shelf.</summary>
internal sealed class StockTaker(PlateRoomDb db, Room room, int materialId, DateTime nowUtc)
{
    private readonly List<(Sheet Sheet, RemnantCut Cut, ShelfChoice From)> _rests = [];
    private readonly List<(Sheet Sheet, Remnant Remnant)> _remnants = [];
    private readonly Dictionary<int, ShelfChoice> _from = [];

    /// <summary>Reads the chosen lots and remnants as they are now.</summary>
    /// <exception cref="PlateRoomException">There is less of something than the layout needs.</exception>
    public async Task ReadAsync(Shelf shelf, IReadOnlyList<NestSheet> sheets, CancellationToken cancel)
    {
        foreach (var used in sheets.GroupBy(s => s.StockId))
        {
            var choice = used.Key >= 0 && used.Key < shelf.Choices.Count
                ? shelf.Choices[used.Key]
                : throw new PlateRoomException("The layout uses a sheet that is not on the shelf: make the layout again.");
            if (choice.Lot is { } lot)
            {
                var now = await db.StockLots.SingleAsync(l => l.Id == lot.Id, cancel);
                if (now.Sheets < used.Count())
                {
                    throw new PlateRoomException(
                        $"The layout needs {used.Count()} sheets of lot {now.Lot}; {now.Sheets} are left. Make the layout again, nothing was released.");
                }

                _from[used.Key] = choice with { Lot = now };
            }
            else if (choice.Remnant is { } remnant)
            {
                var now = await db.Remnants.SingleAsync(r => r.Id == remnant.Id, cancel);
                _from[used.Key] = now.IsThere
                    ? choice with { Remnant = now }
                    : throw new PlateRoomException($"Remnant {now.Mark} is not there any more. Make the layout again, nothing was released.");
            }
            else
            {
                _from[used.Key] = choice;
            }
        }
    }

    public async Task<List<Sheet>> MakeAsync(Shelf shelf, IReadOnlyList<NestSheet> layout, CancellationToken cancel)
    {
        var revision = SheetMaker.Recipe(room, materialId);
        var numbers = await db.NumberSequences.SingleAsync(s => s.Kind == NumberKind.Sheet, cancel);
        var made = new List<Sheet>();
        foreach (var nested in layout)
        {
            var from = _from[nested.StockId];
            var cut = shelf.CutOf(room, nested);
            var kept = cut is null ? nested : nested with { Width = cut.KeptWidth, Length = cut.KeptLength };
            var sheet = SheetMaker.SheetOf(kept, materialId, revision.Id, revision.Settings.Route, numbers, nowUtc);
            (sheet.Lot, sheet.FromWidthUm, sheet.FromLengthUm) = (from.LotName, (int)nested.Width, (int)nested.Length);
            if (from.Lot is { } lot)
            {
                lot.Sheets--;
                sheet.StockLotId = lot.Id;
            }

            if (from.Remnant is { } remnant)
            {
                sheet.RemnantMark = remnant.Mark;
                _remnants.Add((sheet, remnant));
            }

            if (cut is not null)
            {
                _rests.Add((sheet, cut, from));
            }

            made.Add(sheet);
            db.Sheets.Add(sheet);
        }

        return made;
    }

    /// <summary>Call when the sheets are saved and have ids.</summary>
    public void KeepRemnants()
    {
        foreach (var (sheet, remnant) in _remnants)
        {
            remnant.TakenBySheetId = sheet.Id;
        }

        foreach (var (sheet, cut, from) in _rests)
        {
            db.Remnants.Add(new Remnant
            {
                MaterialId = materialId,
                WidthUm = (int)cut.Width,
                LengthUm = (int)cut.Length,
                Lot = from.LotName,
                ExpiresOn = from.Lot?.ExpiresOn ?? from.Remnant?.ExpiresOn,
                MadeUtc = nowUtc,
                FromSheetId = sheet.Id,
            });
        }
    }
}
