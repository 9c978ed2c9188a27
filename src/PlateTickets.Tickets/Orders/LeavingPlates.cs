using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Layouts;

namespace PlateTickets.Tickets.Orders;

/// <summary>What becomes of the sheets whose plates are not wanted any more.</summary>
/// <param name="PutBack">Not started and with nothing else on them: cancelled, and the raw sheets are stock again.</param>
/// <param name="GivenUp">Begun and with nothing else on them: cancelled, or on hold until it comes out of its machine.</param>
/// <param name="GoOn">Sheets that carry plates which are still wanted.</param>
/// <param name="Unlaid">Plates that have no sheet yet.</param>
public sealed record LeavingEffect(IReadOnlyList<string> PutBack, IReadOnlyList<string> GivenUp, IReadOnlyList<string> GoOn, int Unlaid);

/// <summary>Plates that leave their sets, with the sheets that are not done yet.</summary>
internal sealed class LeavingPlates
{
    private readonly PlateRoomDb _db;
    private readonly List<Sheet> _fresh;
    private readonly List<Sheet> _begun;

    private LeavingPlates(PlateRoomDb db, List<Sheet> sheets, List<Sheet> fresh, List<Sheet> begun, LeavingEffect effect) =>
        (_db, Sheets, _fresh, _begun, Effect) = (db, sheets, fresh, begun, effect);

    /// <summary>Every sheet that is not done and carries one of them.</summary>
    public IReadOnlyList<Sheet> Sheets { get; }

    public LeavingEffect Effect { get; }

    public static async Task<LeavingPlates> SortAsync(PlateRoomDb db, IReadOnlyCollection<int> plateIds, CancellationToken cancel)
    {
        var leaving = plateIds.ToHashSet();
        var sheets = await SheetsOf.Plates(db, plateIds).AsSplitQuery()
            .Where(s => s.State != SheetState.Done && s.State != SheetState.Cancelled)
            .Include(s => s.Stages).Include(s => s.Placements).ThenInclude(p => p.Plate!.Ticket)
            .OrderBy(s => s.Id).ToListAsync(cancel);
        var ids = sheets.ConvertAll(s => s.Id);
        var scanned = (await db.Scans.Where(s => s.SheetId != null && ids.Contains(s.SheetId.Value)).Select(s => s.SheetId!.Value).Distinct().ToListAsync(cancel)).ToHashSet();
        var wanted = sheets.Where(s => s.Placements.Exists(p => !p.Plate!.OutOfSet && !leaving.Contains(p.PlateId) && p.Plate.Ticket!.State != TicketState.Cancelled)).ToHashSet();
        var laid = await db.Placements.Where(p => plateIds.Contains(p.PlateId)).Select(p => p.PlateId).Distinct().CountAsync(cancel);
        var (fresh, begun) = (sheets.FindAll(s => !wanted.Contains(s) && !scanned.Contains(s.Id)), sheets.FindAll(s => !wanted.Contains(s) && scanned.Contains(s.Id)));
        return new(
            db, sheets, fresh, begun,
            new([.. fresh.Select(s => s.Number)], [.. begun.Select(s => s.Number)], [.. sheets.Where(wanted.Contains).Select(s => s.Number)], leaving.Count - laid));
    }

    /// <summary>Cancels the sheets that carry nothing wanted; raw ones go back to stock.</summary>
    /// <param name="because">Why remnants that were to be cut off are gone.</param>
    /// <param name="hold">What the station reads at a sheet that must come out of its machine first.</param>
    /// <param name="cancel">Cancels.</param>
    public async Task GiveUpAsync(string because, string hold, CancellationToken cancel)
    {
        await SheetReturn.PutBackAsync(_db, _fresh, because, cancel);
        foreach (var sheet in _begun.Concat(_fresh))
        {
            // What is in a machine must come out of it: it is cancelled when it does.
            if (sheet.Stages.Exists(s => s.State == StageState.Running))
            {
                (sheet.State, sheet.HoldReason) = (SheetState.OnHold, hold);
            }
            else
            {
                (sheet.State, sheet.CurrentStation, sheet.HoldReason) = (SheetState.Cancelled, null, "");
            }
        }
    }
}
