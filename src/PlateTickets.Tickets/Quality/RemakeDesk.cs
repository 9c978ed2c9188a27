using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Quality;

/// <summary>What is made again, and why.</summary>
/// <param name="SheetNumber">The sheet that the plates lie on.</param>
/// <param name="PlateIds">The spoilt plates; empty for the whole sheet, which is then given up.</param>
/// <param name="Defect">By the trade's name.</param>
/// <param name="Reason">In words; may be empty.</param>
/// <param name="CausedAt">Where it went wrong; null for outside of the plate room.</param>
/// <param name="FoundAt">Where it was seen; null for outside of the plate room.</param>
/// <param name="AtOnce">Lay the new plates out by themselves now; else they wait for the layout with others.</param>
public sealed record RemakeRequest(
    string SheetNumber, IReadOnlyCollection<int> PlateIds, PlateDefect Defect, string Reason, Station? CausedAt, Station? FoundAt, bool AtOnce = true);

/// <summary>What came of it.</summary>
/// <param name="Tickets">The tickets whose sets wait now.</param>
/// <param name="NewSheets">The sheets of the new plates; empty while they wait for the layout.</param>
/// <param name="Sentence">The whole in a sentence.</param>
public sealed record RemakeResult(IReadOnlyList<string> Tickets, IReadOnlyList<string> NewSheets, string Sentence);

/// <summary>One remake as its ticket and sheet show it.</summary>
public sealed record RemakeLine(
    int Id, int TicketId, int SheetId, string SheetNumber, string Colour, int Copy, PlateDefect Defect, string Reason, Station? CausedAt, Station? FoundAt, DateTime AtUtc, string By,
    long AreaUm2, int SpentSeconds, string? NewSheet, bool Done);

/// <summary>Has spoilt plates made again: new plates of the same tickets, with their urgency, in the layout.</summary>
public sealed class RemakeDesk(IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, LayoutDesk layouts, RoomEvents events, TimeProvider clock)
{
    /// <exception cref="PlateRoomException">With what is wrong; nothing was kept.</exception>
    public async Task<RemakeResult> RemakeAsync(RemakeRequest request, string by, CancellationToken cancel = default)
    {
        if (request.Defect == PlateDefect.Other && string.IsNullOrWhiteSpace(request.Reason))
        {
            throw new PlateRoomException("Say in a few words what is wrong with the plate.");
        }

        var now = clock.GetUtcNow().UtcDateTime;
        int materialId;
        List<(Plate New, bool Across)> made;
        List<string> numbers;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            db.ActingAs = by;
            db.Clock = clock;
            await using var transaction = await db.BeginWriteAsync(cancel);
            var sheet = await db.Sheets.AsSplitQuery().Include(s => s.Stages).Include(s => s.Placements).ThenInclude(p => p.Plate!.Ticket!.Order)
                .SingleOrDefaultAsync(s => s.Number == request.SheetNumber, cancel)
                ?? throw new PlateRoomException($"There is no sheet {TrackingNumber.ForPeople(request.SheetNumber)}.");
            materialId = sheet.MaterialId;
            var spoilt = Spoilt(sheet, request);
            made = Replace(db, sheet, spoilt, request, by, now);
            await ReadingDesk.DecideAllAsync(db, sheet.Id, ReadingState.Remade, request.Defect.Title(), by, now, cancel);
            await StageDesk.SaveAsync(db, cancel);
            await transaction.CommitAsync(cancel);
            numbers = [.. spoilt.Select(p => p.Plate!.Ticket!.Order!.Number).Distinct()];
            events.TellChanged([sheet.Id]);
            events.AskForPlan();
        }

        var (sheets, why) = request.AtOnce ? await LayOutAsync(materialId, made, by, cancel) : ([], "the layout page shows them");
        var plates = made.Count == 1 ? "1 plate is" : $"{made.Count} plates are";
        var where = sheets.Count > 0
            ? $"on sheet {string.Join(", ", sheets.Select(TrackingNumber.ForPeople))}: print its traveler"
            : $"{(made.Count == 1 ? "it waits" : "they wait")} for the layout: {why}";
        return new(numbers, sheets, $"{plates} made again, {where}. The set of ticket {string.Join(", ", numbers.Select(TrackingNumber.ForPeople))} waits.");
    }

    public Task<IReadOnlyList<RemakeLine>> OfTicketAsync(int ticketId, CancellationToken cancel = default) => ReadAsync(q => q.Where(r => r.TicketId == ticketId), cancel);

    public Task<IReadOnlyList<RemakeLine>> OfSheetAsync(int sheetId, CancellationToken cancel = default) => ReadAsync(q => q.Where(r => r.SheetId == sheetId), cancel);

    private async Task<IReadOnlyList<RemakeLine>> ReadAsync(Func<IQueryable<Remake>, IQueryable<Remake>> which, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await which(db.Remakes.AsNoTracking()).OrderBy(r => r.Id)
            .Select(r => new RemakeLine(
                r.Id, r.TicketId, r.SheetId, r.Sheet!.Number, r.Plate!.Separation!.Colour, r.Plate.Copy, r.Defect, r.Reason, r.CausedAt, r.FoundAt, r.AtUtc, r.By, r.AreaUm2, r.SpentSeconds,
                db.Placements.Where(p => p.PlateId == r.NewPlateId && p.Sheet!.State != SheetState.Cancelled).Select(p => p.Sheet!.Number).FirstOrDefault(),
                // A plate that is spoilt in its turn has a line of its own.
                r.NewPlate!.OutOfSet || db.Placements.Any(p => p.PlateId == r.NewPlateId && p.Sheet!.State == SheetState.Done)))
            .ToListAsync(cancel);
    }

    private static List<Placement> Spoilt(Sheet sheet, RemakeRequest request)
    {
        if (sheet.State == SheetState.Cancelled)
        {
            throw new PlateRoomException($"Sheet {TrackingNumber.ForPeople(sheet.Number)} is cancelled already.");
        }

        var spoilt = sheet.Placements.Where(p => !p.Plate!.OutOfSet && (request.PlateIds.Count == 0 || request.PlateIds.Contains(p.PlateId))).ToList();
        if (spoilt.Count == 0 || (request.PlateIds.Count > 0 && spoilt.Count != request.PlateIds.Distinct().Count()))
        {
            throw new PlateRoomException("These plates are not on the sheet any more, or are being made again already: look at it again.");
        }

        return spoilt;
    }

    private static List<(Plate New, bool Across)> Replace(PlateRoomDb db, Sheet sheet, List<Placement> spoilt, RemakeRequest request, string by, DateTime now)
    {
        var all = sheet.Placements.Sum(Area);
        var spent = sheet.Stages.Where(s => s.State != StageState.Waiting && s.SkippedBecause.Length == 0).Sum(s => (long)s.TotalSeconds);
        var giveUp = sheet.State != SheetState.Done && sheet.Placements.TrueForAll(p => p.Plate!.OutOfSet || spoilt.Contains(p));
        var made = new List<(Plate, bool)>();
        foreach (var placement in spoilt)
        {
            var old = placement.Plate!;
            old.OutOfSet = true;
            var plate = new Plate { TicketId = old.TicketId, SeparationId = old.SeparationId, Copy = old.Copy, WidthUm = old.WidthUm, LengthUm = old.LengthUm, RemakeOfPlateId = old.Id };
            var share = Area(placement) / (double)all;
            db.Remakes.Add(new Remake
            {
                TicketId = old.TicketId,
                SheetId = sheet.Id,
                Plate = old,
                NewPlate = plate,
                Defect = request.Defect,
                Reason = request.Reason.Trim(),
                CausedAt = request.CausedAt,
                FoundAt = request.FoundAt,
                AtUtc = now,
                By = by,
                AreaUm2 = giveUp ? (long)((long)sheet.WidthUm * sheet.LengthUm * share) : Area(placement),
                SpentSeconds = (int)(spent * share),
            });
            made.Add((plate, placement.Rotated));
        }

        foreach (var ticket in spoilt.Select(p => p.Plate!.Ticket!).Where(t => t.State == TicketState.Done))
        {
            // The set is not whole any more.
            (ticket.State, ticket.DoneUtc) = (TicketState.InWork, null);
        }

        if (giveUp)
        {
            foreach (var stage in sheet.Stages.Where(s => s.State == StageState.Running))
            {
                (stage.State, stage.FinishedUtc, stage.FinishedBy, stage.SkippedBecause) = (StageState.Done, now, by, "broken off: the sheet is made again");
            }

            (sheet.State, sheet.CurrentStation) = (SheetState.Cancelled, null);
        }

        return made;
    }

    /// <summary>The new plates by themselves, in the direction of the old ones: a remake must stretch as its set does.</summary>
    private async Task<(IReadOnlyList<string> Sheets, string Why)> LayOutAsync(int materialId, List<(Plate New, bool Across)> made, string by, CancellationToken cancel)
    {
        try
        {
            var room = await rooms.GetAsync(cancel);
            var shelf = await layouts.ShelfAsync(materialId, made.Count, cancel);
            var result = shelf.Lay(
                [.. made.Select(m => new NestPlate(m.New.Id, m.New.WidthUm, m.New.LengthUm)
                {
                    Set = m.New.TicketId,
                    Separation = m.New.SeparationId,
                    Turn = m.Across ? PlateTurn.Across : PlateTurn.Along,
                })],
                room.NestRules);
            return result is { TooLarge.Count: 0, NoSheetLeft.Count: 0 }
                ? (await layouts.ReleaseAsync(materialId, result.Sheets, shelf, by, cancel), "")
                : ([], "there is no sheet left on the shelf for them");
        }
        catch (PlateRoomException refused)
        {
            // The remake stands; only its sheet could not be made now, and the person is told why.
            return ([], refused.Message);
        }
    }

    private static long Area(Placement placement) => (long)placement.WidthUm * placement.LengthUm;
}
