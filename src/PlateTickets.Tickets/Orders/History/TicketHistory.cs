using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders.History;

public enum HappeningKind
{
    Scan = 1,
    Reading = 2,
    Decision = 3,
    Remake = 4,

    /// <summary>Everything else that a person did: entered, changed, printed.</summary>
    Change = 5,
}

/// <summary>One thing that happened to a ticket or one of its sheets.</summary>
/// <param name="AtUtc">When.</param>
/// <param name="By">Who.</param>
/// <param name="Kind">What sort of thing.</param>
/// <param name="Sheet">The sheet's number; empty when it concerns the ticket.</param>
/// <param name="Sentence">What, in a sentence; empty where <paramref name="Entry"/> says it.</param>
/// <param name="Refused">A scan that was refused.</param>
/// <param name="Station">Where; null when it was at no station.</param>
/// <param name="EquipmentId">On which machine; null when on none.</param>
/// <param name="Entry">The entry of the audit trail; null for scans, readings, decisions and remakes.</param>
public sealed record Happening(
    DateTime AtUtc, string By, HappeningKind Kind, string Sheet, string Sentence, bool Refused = false, Station? Station = null, int? EquipmentId = null, AuditEntry? Entry = null);

/// <summary>A ticket's whole life.</summary>
/// <param name="Order">The order with its customer.</param>
/// <param name="Happenings">Newest first, at most <see cref="TicketHistory.Most"/>.</param>
/// <param name="IsWhole">False when there were more.</param>
public sealed record HistoryView(Order Order, IReadOnlyList<Happening> Happenings, bool IsWhole);

/// <summary>Gathers what scans, readings, decisions, remakes and the audit trail know of one ticket and of the sheets that its plates lie or lay on.</summary>
public sealed class TicketHistory(IDbContextFactory<PlateRoomDb> databases)
{
    /// <summary>At most so many of each sort, the newest.</summary>
    public const int Most = 2000;

    public async Task<HistoryView?> FindAsync(string number, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var order = await db.Orders.AsNoTracking().Include(o => o.Customer).SingleOrDefaultAsync(o => o.Number == number, cancel);
        if (order is null)
        {
            return null;
        }

        var sheets = await SheetsOf.Ticket(db, order.Id).AsNoTracking().Select(s => new { s.Id, s.Number }).ToDictionaryAsync(s => s.Id, s => s.Number, cancel);
        var (ids, keys) = (sheets.Keys.ToList(), sheets.Values.Append(order.Number).ToList());
        var scans = await db.Scans.AsNoTracking().Where(s => s.SheetId != null && ids.Contains(s.SheetId.Value)).OrderByDescending(s => s.ReadUtc).Take(Most).ToListAsync(cancel);
        var readings = await db.StageReadings.AsNoTracking().Where(r => ids.Contains(r.SheetId)).OrderByDescending(r => r.AtUtc).Take(Most).ToListAsync(cancel);
        var decisions = await db.StageDecisions.AsNoTracking().Where(d => ids.Contains(d.SheetId)).OrderByDescending(d => d.AtUtc).Take(Most).ToListAsync(cancel);
        var remakes = await db.Remakes.AsNoTracking().Where(r => r.TicketId == order.Id).OrderByDescending(r => r.AtUtc).Take(Most)
            .Select(r => new { r.AtUtc, r.By, r.SheetId, r.Plate!.Separation!.Colour, r.Defect, r.Reason, r.FoundAt }).ToListAsync(cancel);
        var entries = await db.AuditEntries.AsNoTracking().Where(e => keys.Contains(e.Key)).OrderByDescending(e => e.Id).Take(Most).ToListAsync(cancel);

        IEnumerable<Happening> all =
        [
            .. scans.Select(s => new Happening(s.ReadUtc, s.By, HappeningKind.Scan, sheets[s.SheetId!.Value], s.Sentence, s.Outcome >= ScanOutcome.Misread, s.Station, s.EquipmentId)),
            .. readings.Select(r => new Happening(r.AtUtc, r.By, HappeningKind.Reading, sheets[r.SheetId], r.Sentence, false, r.Station, r.EquipmentId)),
            .. readings.Where(r => r.DecidedUtc is not null).Select(r => new Happening(r.DecidedUtc!.Value, r.DecidedBy, HappeningKind.Decision, sheets[r.SheetId], Decided(r), false, r.Station, r.EquipmentId)),
            .. decisions.Select(d => new Happening(d.AtUtc, d.By, HappeningKind.Decision, sheets[d.SheetId], Decided(d), false, d.Station)),
            .. remakes.Select(r => new Happening(r.AtUtc, r.By, HappeningKind.Remake, sheets.GetValueOrDefault(r.SheetId, ""), $"{r.Colour} is made again: {r.Defect.Title()}{(r.Reason.Length > 0 ? $", {r.Reason.TrimEnd('.')}" : "")}.", false, r.FoundAt)),
            .. entries.Select(e => new Happening(e.AtUtc, e.By, HappeningKind.Change, e.Key == order.Number ? "" : e.Key, "", Entry: e)),
        ];
        var happenings = all.OrderByDescending(h => h.AtUtc).ToList();
        return new HistoryView(order, [.. happenings.Take(Most)], happenings.Count <= Most && scans.Count < Most && readings.Count < Most && entries.Count < Most);
    }

    private static string Decided(StageReading reading) =>
        $"{reading.State switch { ReadingState.Accepted => "Accepted", ReadingState.Remade => "To be made again", ReadingState.OnHold => "Put on hold", _ => "Decided" }}{(reading.Reason.Length > 0 ? $": {reading.Reason}" : "")}. ({reading.Sentence})";

    private static string Decided(StageDecision decision) => decision.Kind switch
    {
        StageDecisionKind.Skip => $"{decision.Station.Title()} is left out: {decision.Reason}",
        StageDecisionKind.Repeat => $"{decision.Station.Title()} is done again: {decision.Reason}",
        _ => $"It goes on to {decision.Station.Title().ToLowerInvariant()} although it lay longer than its recipe allows: {decision.Reason}",
    };
}
