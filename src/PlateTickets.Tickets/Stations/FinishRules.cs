using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>A reading of a sheet whose stage runs: may it be finished here?</summary>
internal sealed class FinishRules(ScanContext at)
{
    public async Task<ScanVerdict> DecideAsync(Sheet sheet, Stage stage, string number, CancellationToken cancel)
    {
        var title = stage.Station.Title();
        var where = at.Room.EquipmentById(stage.EquipmentId)?.Name ?? "another machine";
        if (stage.EquipmentId != at.Equipment.Id)
        {
            return new(
                ScanOutcome.WrongStation,
                $"Sheet {number} is in {where} for {title.ToLowerInvariant()} since {SiteClock.Near(stage.StartedUtc!.Value, at.NowUtc, at.Room.Zone)}. Finish it there first.",
                stage.Station);
        }

        var over = stage.StartedUtc!.Value.AddSeconds(stage.LoadSeconds + stage.RunSeconds);
        // Work by hand ends when it ends; a second scan right after the first is still a scan made twice.
        if (at.Request.Action == ScanAction.Start || (at.Request.Action == ScanAction.Next && !at.Request.Confirmed && at.Utc < (stage.RunIsAttended ? stage.StartedUtc.Value + ScanDesk.TwiceWithin : over)))
        {
            return new(
                ScanOutcome.AlreadyRunning,
                $"Sheet {number} was started here at {SiteClock.Near(stage.StartedUtc.Value, at.NowUtc, at.Room.Zone)} already. Nothing was counted twice. {at.Ends(over)}",
                stage.Station);
        }

        if (at.Utc < over && !at.Request.Confirmed && !stage.RunIsAttended)
        {
            return new(
                ScanOutcome.TooEarly,
                $"{title} of sheet {number} needs until {SiteClock.Near(over, at.NowUtc, at.Room.Zone)}: still {at.Left(over)}. Leave it in, or confirm that it came out early.",
                stage.Station);
        }

        return await FinishAsync(sheet, stage, number, cancel);
    }

    private async Task<ScanVerdict> FinishAsync(Sheet sheet, Stage stage, string number, CancellationToken cancel)
    {
        stage.State = StageState.Done;
        stage.FinishedUtc = at.Utc < stage.StartedUtc ? stage.StartedUtc : at.Utc;
        stage.FinishedBy = at.Request.By;
        at.ActsOn(sheet);
        var done = $"{stage.Station.Title()} of sheet {number} finished";
        if (sheet.Stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station) is { } next)
        {
            sheet.CurrentStation = next.Station;
            if (sheet.State == SheetState.OnHold)
            {
                var tickets = await at.Facts.TicketsAsync(sheet, cancel);
                if (tickets.All(t => t.State == TicketState.Cancelled))
                {
                    (sheet.State, sheet.CurrentStation) = (SheetState.Cancelled, null);
                    return new(ScanOutcome.Finished, $"{done}. {(tickets.Count > 0 ? "Its order was cancelled" : "Its plates are not wanted any more")}: put it with the waste, there is nothing left to do with it.", stage.Station);
                }

                return new(ScanOutcome.Finished, $"{done}. It stays on hold: {sheet.HoldReason}. Put it aside and ask the lead.", stage.Station);
            }

            sheet.State = SheetState.Waiting;
            var rest = stage.RestAfterSeconds > 0
                ? $" after a rest until {SiteClock.Near(stage.FinishedUtc!.Value.AddSeconds(stage.RestAfterSeconds), at.NowUtc, at.Room.Zone)}"
                : "";
            return new(ScanOutcome.Finished, $"{done}. Next is {next.Station.Title().ToLowerInvariant()}{at.On(next)}{rest}.", stage.Station);
        }

        sheet.State = SheetState.Done;
        sheet.CurrentStation = null;
        sheet.DoneUtc = stage.FinishedUtc;
        return new(ScanOutcome.Finished, $"{done}. {await CloseTicketsAsync(sheet, cancel)}", stage.Station);
    }

    /// <summary>A ticket is done with the last sheet of its set.</summary>
    private async Task<string> CloseTicketsAsync(Sheet sheet, CancellationToken cancel)
    {
        // What the scans before it in this turn have done is counted too.
        await at.Db.SaveChangesAsync(cancel);
        var sentences = new List<string> { sheet.Stages.Exists(s => s.Station == Station.Cutting) ? "The sheet is done." : "The sheet is done: cut and inspect its plates." };
        foreach (var ticket in await at.Facts.TicketsAsync(sheet, cancel))
        {
            var others = await at.Db.Placements
                .Where(p => p.Plate!.TicketId == ticket.Id && !p.Plate.OutOfSet && p.SheetId != sheet.Id && p.Sheet!.State != SheetState.Done && p.Sheet.State != SheetState.Cancelled)
                .Select(p => p.SheetId).Distinct().CountAsync(cancel);
            var ticketNumber = TrackingNumber.ForPeople(ticket.Order!.Number);
            if (others > 0)
            {
                sentences.Add($"Ticket {ticketNumber} still waits for {others} more {(others == 1 ? "sheet" : "sheets")}.");
                continue;
            }

            var unlaid = await at.Db.Plates.CountAsync(p => p.TicketId == ticket.Id && !p.OutOfSet && !at.Db.Placements.Any(l => l.PlateId == p.Id), cancel);
            if (unlaid > 0)
            {
                sentences.Add($"Ticket {ticketNumber} still waits for {unlaid} more {(unlaid == 1 ? "plate that has" : "plates that have")} no sheet yet.");
                continue;
            }

            if (ticket.State == TicketState.Cancelled)
            {
                continue;
            }

            at.ActsOn(ticket);
            ticket.State = TicketState.Done;
            ticket.DoneUtc = sheet.DoneUtc;
            sentences.Add($"Ticket {ticketNumber} is complete.");
        }

        return string.Join(" ", sentences);
    }
}
