using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>A sheet that lies in a machine.</summary>
internal sealed record InMachine(int SheetId, string Number, DateTime StartedUtc, int? Drawer);

/// <summary>
/// What the rules ask of the room, read at most once for all scans of a turn. What a scan of the turn changes is seen by those after it: the sheets are
/// the tracked ones, and a turn has each of them once.
/// </summary>
internal sealed class ScanFacts
{
    private readonly PlateRoomDb _db;
    private readonly Dictionary<string, Sheet> _sheets;
    private readonly int[] _sheetIds;
    private readonly int[] _machineIds;
    private ILookup<int, string>? _findings;
    private ILookup<int, InMachine>? _inside;
    private ILookup<int, Ticket>? _tickets;

    private ScanFacts(PlateRoomDb db, Dictionary<string, Sheet> sheets, int[] machineIds) =>
        (_db, _sheets, _sheetIds, _machineIds) = (db, sheets, [.. sheets.Values.Select(s => s.Id)], machineIds);

    /// <summary>Reads the sheets of a turn.</summary>
    /// <param name="numbers">Numbers of sheets that are named in it, known or not.</param>
    /// <param name="machineIds">The machines that it was read at.</param>
    public static async Task<ScanFacts> ReadAsync(PlateRoomDb db, IReadOnlyCollection<string> numbers, IEnumerable<int> machineIds, CancellationToken cancel)
    {
        var sheets = numbers.Count == 0 ? [] : await db.Sheets.Where(s => numbers.Contains(s.Number)).ToDictionaryAsync(s => s.Number, cancel);
        if (sheets.Count > 0)
        {
            // Into the sheets by their tracking: an Include makes delegates anew for every row that it reads.
            int[] ids = [.. sheets.Values.Select(s => s.Id)];
            await db.Stages.Where(s => ids.Contains(s.SheetId)).OrderBy(s => s.Id).LoadAsync(cancel);
        }

        return new ScanFacts(db, sheets, [.. machineIds.Distinct()]);
    }

    public Sheet? Sheet(string number) => _sheets.GetValueOrDefault(number);

    /// <summary>A finding about a sheet that nobody has decided on; null for none.</summary>
    public async Task<string?> OpenFindingAsync(Sheet sheet, CancellationToken cancel)
    {
        _findings ??= (await _db.StageReadings.Where(r => _sheetIds.Contains(r.SheetId) && r.State == ReadingState.Open).OrderBy(r => r.Id).Select(r => new { r.SheetId, r.Sentence }).ToListAsync(cancel))
            .ToLookup(r => r.SheetId, r => r.Sentence);
        return _findings[sheet.Id].FirstOrDefault();
    }

    /// <summary>What lies in a machine, the longest in first.</summary>
    public async Task<IReadOnlyList<InMachine>> InsideAsync(int machineId, CancellationToken cancel)
    {
        _inside ??= (await _db.Stages
            .Where(s => s.State == StageState.Running && s.EquipmentId != null && _machineIds.Contains(s.EquipmentId.Value) && !_sheetIds.Contains(s.SheetId))
            .Select(s => new { s.EquipmentId, s.SheetId, s.Sheet!.Number, s.StartedUtc, s.Drawer })
            .ToListAsync(cancel)).ToLookup(s => s.EquipmentId!.Value, s => new InMachine(s.SheetId, s.Number, s.StartedUtc!.Value, s.Drawer));
        var own = _sheets.Values.SelectMany(s => s.Stages.Where(t => t.State == StageState.Running && t.EquipmentId == machineId).Select(t => new InMachine(s.Id, s.Number, t.StartedUtc!.Value, t.Drawer)));
        return [.. _inside[machineId].Concat(own).OrderBy(i => i.StartedUtc)];
    }

    /// <summary>The tickets whose set counts on a plate of the sheet, with their orders.</summary>
    public async Task<IReadOnlyList<Ticket>> TicketsAsync(Sheet sheet, CancellationToken cancel)
    {
        if (_tickets is null)
        {
            var carried = await _db.Placements.Where(p => _sheetIds.Contains(p.SheetId) && !p.Plate!.OutOfSet).Select(p => new { p.SheetId, p.Plate!.TicketId }).Distinct().ToListAsync(cancel);
            int[] ids = [.. carried.Select(c => c.TicketId).Distinct()];
            await _db.Orders.Where(o => ids.Contains(o.Id)).LoadAsync(cancel);
            var tickets = await _db.Tickets.Where(t => ids.Contains(t.Id)).ToDictionaryAsync(t => t.Id, cancel);
            _tickets = carried.OrderBy(c => c.TicketId).ToLookup(c => c.SheetId, c => tickets[c.TicketId]);
        }

        return [.. _tickets[sheet.Id]];
    }
}
