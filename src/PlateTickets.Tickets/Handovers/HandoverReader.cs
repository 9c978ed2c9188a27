using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Handovers;

/// <summary>Reads what a shift has to hand over.</summary>
internal sealed class HandoverReader(PlateRoomDb db, Room room, PlanBook plan, GoalsOfShift? goals, ShiftDay shift, DateTime nowUtc)
{
    public async Task<HandoverFacts> ReadAsync(CancellationToken cancel)
    {
        var to = CountedTo();
        // This very instant counts while nobody else follows.
        var before = to == nowUtc ? to.AddMicroseconds(1) : to;
        var open = await db.Sheets.AsNoTracking().AsSplitQuery()
            .Where(s => s.State == SheetState.Waiting || s.State == SheetState.Running || s.State == SheetState.OnHold)
            .Include(s => s.Stages).OrderBy(s => s.Id).ToListAsync(cancel);
        var carried = (await db.Placements
                .Where(p => !p.Plate!.OutOfSet && (p.Sheet!.State == SheetState.Waiting || p.Sheet.State == SheetState.Running || p.Sheet.State == SheetState.OnHold))
                .Select(p => new { p.SheetId, Order = p.Plate!.Ticket!.Order!.Id, p.Plate.Ticket.Order.Number, Customer = p.Plate.Ticket.Order.Customer!.Name, p.Plate.Ticket.Order.Title, p.Plate.Ticket.Order.DueUtc })
                .Distinct().ToListAsync(cancel))
            .Select(c => new Carried(c.SheetId, c.Order, c.Number, c.Customer, c.Title, c.DueUtc)).ToList();
        var bySheet = carried.OrderBy(c => c.DueUtc).ToLookup(c => c.SheetId);
        var waiting = Waiting(open, bySheet);
        return new HandoverFacts
        {
            AtUtc = nowUtc,
            CountedToUtc = to,
            Finished = await FinishedAsync(before, cancel),
            Tickets = await db.Tickets.Where(t => t.DoneUtc >= shift.StartUtc && t.DoneUtc < before).OrderBy(t => t.DoneUtc).Take(HandoverFacts.Most)
                .Select(t => new DoneTicket(t.Order!.Number, t.Order.Customer!.Name, t.Order.Title, t.DoneUtc!.Value, t.Order.DueUtc)).ToListAsync(cancel),
            Running = Running(open, bySheet),
            Waiting = [.. waiting.Take(HandoverFacts.Most)],
            WaitingCount = waiting.Count,
            Endangered = Endangered(open, carried),
            Down = [.. room.Downtimes.Where(d => d.ToUtc > nowUtc && d.ToUtc > d.FromUtc && d.FromUtc < nowUtc.AddHours(24))
                .Select(d => new MachineDown(room.EquipmentById(d.EquipmentId)!.Name, d.FromUtc, d.ToUtc, d.Reason))],
            Remakes = await db.Remakes.AsNoTracking().Where(r => r.AtUtc >= shift.StartUtc && r.AtUtc < before).OrderBy(r => r.AtUtc).Take(HandoverFacts.Most)
                .Select(r => new ShiftRemake(r.Ticket!.Order!.Number, r.Ticket.Order.Customer!.Name, r.Plate!.Separation!.Colour, r.Defect, r.FoundAt, r.Reason, r.By, r.AtUtc))
                .ToListAsync(cancel),
            Holds = [.. Held(open, bySheet), .. await UndecidedAsync(open, bySheet, cancel)],
        };
    }

    // Overtime belongs to the shift that stays, as long as no other has begun.
    private DateTime CountedTo()
    {
        var next = room.ShiftsBetween(shift.EndUtc, nowUtc.AddDays(1)).FirstOrDefault(s => s.StartUtc >= shift.EndUtc);
        return nowUtc < shift.EndUtc || next is null || nowUtc < next.StartUtc ? nowUtc : next.StartUtc;
    }

    private async Task<List<FinishedAtStation>> FinishedAsync(DateTime before, CancellationToken cancel)
    {
        var counts = await db.Stages
            .Where(s => s.State == StageState.Done && s.FinishedUtc >= shift.StartUtc && s.FinishedUtc < before && s.SkippedBecause == "")
            .GroupBy(s => s.Station).Select(g => new { g.Key, Count = g.Count() }).ToDictionaryAsync(g => g.Key, g => g.Count, cancel);
        return [.. Process.Stations.InOrder.Select(s => new FinishedAtStation(s, counts.GetValueOrDefault(s), goals?.Sheets.GetValueOrDefault(s)))];
    }

    private List<RunningOn> Running(List<Sheet> open, ILookup<int, Carried> bySheet) =>
    [
        .. open.SelectMany(s => s.Stages.Where(t => t.State == StageState.Running).Select(t => (Sheet: s, Stage: t, Ends: t.StartedUtc!.Value.AddSeconds(t.LoadSeconds + t.RunSeconds))))
            .OrderBy(r => r.Ends).Take(HandoverFacts.Most)
            .Select(r => new RunningOn(
                r.Sheet.Number, Customer(bySheet, r.Sheet), Title(bySheet, r.Sheet), r.Stage.Station, room.EquipmentById(r.Stage.EquipmentId)?.Name ?? "", r.Stage.Drawer, r.Ends, r.Ends > shift.EndUtc)),
    ];

    private static List<WaitingFor> Waiting(List<Sheet> open, ILookup<int, Carried> bySheet) =>
    [
        .. open.Where(s => s.State == SheetState.Waiting).Select(s => (Sheet: s, Stage: s.Stages.Where(t => t.State != StageState.Done).MinBy(t => t.Station)))
            .Where(w => w.Stage is not null).OrderBy(w => w.Stage!.DueByUtc ?? DateTime.MaxValue).ThenBy(w => w.Sheet.Id)
            .Select(w => new WaitingFor(w.Sheet.Number, Customer(bySheet, w.Sheet), Title(bySheet, w.Sheet), w.Stage!.Station, w.Stage.DueByUtc, w.Stage.PlannedStartUtc)),
    ];

    private List<EndangeredTicket> Endangered(List<Sheet> open, List<Carried> carried)
    {
        var sheets = open.ToDictionary(s => s.Id);
        var found = new List<(EndangeredTicket Ticket, Lateness Lateness)>();
        foreach (var its in carried.GroupBy(c => c.Order))
        {
            var ticket = its.First();
            var last = its.Select(c => sheets.GetValueOrDefault(c.SheetId)).OfType<Sheet>().Where(s => s.State != SheetState.OnHold)
                .Select(s => s.Stages.MaxBy(t => t.Station)!).MaxBy(t => t.PlannedFinishUtc ?? DateTime.MaxValue);
            var lateness = last is null
                ? ticket.DueUtc < nowUtc ? Lateness.Late : Lateness.OnTime
                : LatenessRules.Of(ticket.DueUtc, last.PlannedFinishUtc, last.DueByUtc, nowUtc, plan.LateChance(its.Key));
            if (lateness != Lateness.OnTime)
            {
                var why = last is null ? "is on hold" : plan.Critical(its.Key) is { } critical ? CriticalWords.Say(critical, room, plan.IsLate(its.Key)) : "";
                found.Add((new EndangeredTicket(ticket.Number, ticket.Customer, ticket.Title, lateness == Lateness.Late, plan.LateChance(its.Key), ticket.DueUtc, last?.PlannedFinishUtc, why), lateness));
            }
        }

        return [.. found.OrderByDescending(f => f.Lateness).ThenBy(f => f.Ticket.DueUtc).Take(HandoverFacts.Most).Select(f => f.Ticket)];
    }

    private static IEnumerable<OpenHold> Held(List<Sheet> open, ILookup<int, Carried> bySheet) => open
        .Where(s => s.State == SheetState.OnHold).Take(HandoverFacts.Most)
        .Select(s => new OpenHold(s.Number, Customer(bySheet, s), Title(bySheet, s), s.HoldReason));

    private async Task<List<OpenHold>> UndecidedAsync(List<Sheet> open, ILookup<int, Carried> bySheet, CancellationToken cancel)
    {
        var sheets = open.ToDictionary(s => s.Id);
        var readings = await db.StageReadings.AsNoTracking().Where(r => r.State == ReadingState.Open).OrderBy(r => r.Id).Take(HandoverFacts.Most)
            .Select(r => new { r.SheetId, r.Sentence }).ToListAsync(cancel);
        return [.. readings.Where(r => sheets.ContainsKey(r.SheetId))
            .Select(r => new OpenHold(sheets[r.SheetId].Number, Customer(bySheet, sheets[r.SheetId]), Title(bySheet, sheets[r.SheetId]), $"Nobody has decided: {r.Sentence}"))];
    }

    private static string Customer(ILookup<int, Carried> bySheet, Sheet sheet) => bySheet[sheet.Id].FirstOrDefault()?.Customer ?? "";

    private static string Title(ILookup<int, Carried> bySheet, Sheet sheet) =>
        bySheet[sheet.Id].FirstOrDefault() is not { } first ? "" : bySheet[sheet.Id].Count() is > 1 and var count ? $"{first.Title} and {count - 1} more" : first.Title;

    private sealed record Carried(int SheetId, int Order, string Number, string Customer, string Title, DateTime DueUtc);
}
