using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Tickets.Stations;

/// <summary>The outcome and the sentence for the person at the station.</summary>
internal sealed record ScanVerdict(ScanOutcome Outcome, string Sentence, Station? Station = null);

/// <summary>Decides what one reading means and, when it is accepted, changes the sheet accordingly (the caller saves).</summary>
internal sealed class ScanRules(PlateRoomDb db, Room room, Equipment equipment, ScanRequest request, DateTime nowUtc)
{
    private DateTime At => request.ReadUtc ?? nowUtc;

    public async Task<ScanVerdict> DecideAsync(ReadNumber read, Sheet? sheet, CancellationToken cancel)
    {
        if (Unreadable(read, sheet) is { } refusal)
        {
            return refusal;
        }

        if (At > nowUtc + ScanDesk.ClockTolerance)
        {
            return new(ScanOutcome.WrongClock, "This reader's clock runs ahead of the server's. Set its clock, then scan again.");
        }

        var number = TrackingNumber.ForPeople(sheet!.Number);
        if (sheet.State == SheetState.OnHold)
        {
            return new(ScanOutcome.OnHold, $"Sheet {number} is on hold: {sheet.HoldReason}. Put it aside and ask the lead.");
        }

        if (sheet.State is SheetState.Done or SheetState.Cancelled)
        {
            var word = sheet.State == SheetState.Done ? "finished" : "cancelled";
            return new(ScanOutcome.AlreadyFinished, $"Sheet {number} is {word} already: there is nothing left to do with it.");
        }

        var stage = sheet.Stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station)!;
        return stage.State == StageState.Running
            ? await AtRunningStageAsync(sheet, stage, number, cancel)
            : await AtWaitingStageAsync(sheet, stage, number, cancel);
    }

    private static ScanVerdict? Unreadable(ReadNumber read, Sheet? sheet) => read.Fault switch
    {
        NumberFault.Empty => new(ScanOutcome.NotANumber, "Nothing was read. Scan the traveler's code again."),
        NumberFault.Misread => new(
            ScanOutcome.Misread,
            $"“{read.Cleaned}” was misread: its check character does not fit. Scan again, or type the number under the code."),
        NumberFault.NotANumber => new(
            ScanOutcome.NotANumber,
            $"“{read.Cleaned}” is not a sheet number. Scan the code at the top of the traveler; it begins with S and has 9 characters."),
        _ when read.Kind == NumberKind.Ticket => new(
            ScanOutcome.TicketNumber,
            $"{TrackingNumber.ForPeople(read.Number!)} is a ticket. A ticket can have several sheets: scan the sheet's own traveler."),
        _ when read.Kind == NumberKind.Badge => new(
            ScanOutcome.NotANumber,
            "That is a badge. Scan the sheet's traveler here; to change the person, choose Sign out first."),
        _ when sheet is null => new(
            ScanOutcome.UnknownSheet,
            $"No sheet has the number {TrackingNumber.ForPeople(read.Number!)}. The traveler may come from another room: ask the lead."),
        _ => null,
    };

    private async Task<ScanVerdict> AtWaitingStageAsync(Sheet sheet, Stage stage, string number, CancellationToken cancel)
    {
        if (!equipment.Serves.Contains(stage.Station))
        {
            return NotHere(sheet, stage, number);
        }

        var recipe = room.Revisions[sheet.RecipeRevisionId].Settings;
        if (!Room.CanDo(equipment, stage.Station, recipe))
        {
            var right = string.Join(" or ", room.For(stage.Station, recipe).Select(e => e.Name));
            return new(ScanOutcome.WrongEquipment, $"{equipment.Name} must not take sheet {number}: its material needs {right}.", stage.Station);
        }

        if (request.Action == ScanAction.Finish)
        {
            return new(ScanOutcome.NotStarted, $"{stage.Station.Title()} of sheet {number} has not been started. Scan it to start.", stage.Station);
        }

        if (await FullAsync(sheet, cancel) is { } full)
        {
            return full with { Station = stage.Station };
        }

        var ready = PlanInput.Ready(sheet, DateTime.MinValue);
        if (At < ready && !request.Confirmed)
        {
            return new(
                ScanOutcome.TooEarly,
                $"Sheet {number} must rest until {SiteClock.Near(ready, nowUtc, room.Zone)} before {stage.Station.Title().ToLowerInvariant()}: still {Left(ready)}.",
                stage.Station);
        }

        var (time, refusal) = StageTiming.TryCompute(room, sheet, stage.Station, equipment, At);
        if (time is null)
        {
            return new(ScanOutcome.NoTime, refusal!, stage.Station);
        }

        await StartAsync(sheet, stage, time, cancel);
        return new(
            ScanOutcome.Started,
            $"{stage.Station.Title()} of sheet {number} started on {equipment.Name}. Run {Durations.ForPeople(stage.RunSeconds)}.",
            stage.Station);
    }

    private async Task<ScanVerdict> AtRunningStageAsync(Sheet sheet, Stage stage, string number, CancellationToken cancel)
    {
        var title = stage.Station.Title();
        var where = stage.Equipment?.Name ?? "another machine";
        if (stage.EquipmentId != equipment.Id)
        {
            return new(
                ScanOutcome.WrongStation,
                $"Sheet {number} is in {where} for {title.ToLowerInvariant()} since {SiteClock.Near(stage.StartedUtc!.Value, nowUtc, room.Zone)}. Finish it there first.",
                stage.Station);
        }

        var over = stage.StartedUtc!.Value.AddSeconds(stage.LoadSeconds + stage.RunSeconds);
        // Work by hand ends when it ends; a second scan right after the first is still a scan made twice.
        if (request.Action == ScanAction.Start || (request.Action == ScanAction.Next && !request.Confirmed && At < (stage.RunIsAttended ? stage.StartedUtc.Value + ScanDesk.TwiceWithin : over)))
        {
            return new(
                ScanOutcome.AlreadyRunning,
                $"Sheet {number} was started here at {SiteClock.Near(stage.StartedUtc.Value, nowUtc, room.Zone)} already. Nothing was counted twice. {Ends(over)}",
                stage.Station);
        }

        if (At < over && !request.Confirmed && !stage.RunIsAttended)
        {
            return new(
                ScanOutcome.TooEarly,
                $"{title} of sheet {number} needs until {SiteClock.Near(over, nowUtc, room.Zone)}: still {Left(over)}. Leave it in, or confirm that it came out early.",
                stage.Station);
        }

        return await FinishAsync(sheet, stage, number, cancel);
    }

    private ScanVerdict NotHere(Sheet sheet, Stage next, string number)
    {
        if (sheet.Stages.Where(s => s.State == StageState.Done && equipment.Serves.Contains(s.Station)).MaxBy(s => s.Station) is { } done)
        {
            return new(
                ScanOutcome.AlreadyFinished,
                $"{done.Station.Title()} of sheet {number} was finished at {SiteClock.Near(done.FinishedUtc!.Value, nowUtc, room.Zone)} already. Next is {next.Station.Title().ToLowerInvariant()}{On(next)}.",
                done.Station);
        }

        return new(
            ScanOutcome.WrongStation,
            $"Sheet {number} is not for {equipment.Name} now. Next is {next.Station.Title().ToLowerInvariant()}{On(next)}.",
            next.Station);
    }

    private async Task<ScanVerdict?> FullAsync(Sheet sheet, CancellationToken cancel)
    {
        // A line takes the next sheet while the last one is still inside.
        if (equipment.Kind == EquipmentKind.Line)
        {
            return null;
        }

        var inside = await db.Stages
            .Where(s => s.EquipmentId == equipment.Id && s.State == StageState.Running && s.SheetId != sheet.Id)
            .OrderBy(s => s.StartedUtc)
            .Select(s => new { s.Sheet!.Number, s.StartedUtc })
            .Take(equipment.Slots)
            .ToListAsync(cancel);
        if (inside.Count < equipment.Slots)
        {
            return null;
        }

        var first = inside[0];
        var what = equipment.Slots == 1 ? "still holds" : $"has all {equipment.Slots} drawers full; longest in is";
        return new(
            ScanOutcome.MachineBusy,
            $"{equipment.Name} {what} sheet {TrackingNumber.ForPeople(first.Number)}, started at {SiteClock.Near(first.StartedUtc!.Value, nowUtc, room.Zone)}. Finish that one first.");
    }

    private async Task StartAsync(Sheet sheet, Stage stage, StageTime time, CancellationToken cancel)
    {
        StageTiming.Write(stage, equipment, time);
        stage.State = StageState.Running;
        stage.StartedUtc = At;
        stage.StartedBy = request.By;
        sheet.State = SheetState.Running;
        sheet.CurrentStation = stage.Station;
        foreach (var ticket in await TicketsAsync(sheet, cancel))
        {
            if (ticket.State == TicketState.Ready)
            {
                ticket.State = TicketState.InWork;
            }
        }
    }

    private async Task<ScanVerdict> FinishAsync(Sheet sheet, Stage stage, string number, CancellationToken cancel)
    {
        stage.State = StageState.Done;
        stage.FinishedUtc = At < stage.StartedUtc ? stage.StartedUtc : At;
        stage.FinishedBy = request.By;
        var done = $"{stage.Station.Title()} of sheet {number} finished";
        if (sheet.Stages.Where(s => s.State != StageState.Done).MinBy(s => s.Station) is { } next)
        {
            sheet.State = SheetState.Waiting;
            sheet.CurrentStation = next.Station;
            var rest = stage.RestAfterSeconds > 0
                ? $" after a rest until {SiteClock.Near(stage.FinishedUtc!.Value.AddSeconds(stage.RestAfterSeconds), nowUtc, room.Zone)}"
                : "";
            return new(ScanOutcome.Finished, $"{done}. Next is {next.Station.Title().ToLowerInvariant()}{On(next)}{rest}.", stage.Station);
        }

        sheet.State = SheetState.Done;
        sheet.CurrentStation = null;
        sheet.DoneUtc = stage.FinishedUtc;
        return new(ScanOutcome.Finished, $"{done}. {await CloseTicketsAsync(sheet, cancel)}", stage.Station);
    }

    /// <summary>A ticket is done with the last sheet of its set.</summary>
    private async Task<string> CloseTicketsAsync(Sheet sheet, CancellationToken cancel)
    {
        var sentences = new List<string> { sheet.Stages.Exists(s => s.Station == Station.Cutting) ? "The sheet is done." : "The sheet is done: cut and inspect its plates." };
        foreach (var ticket in await TicketsAsync(sheet, cancel))
        {
            var others = await db.Placements
                .Where(p => p.Plate!.TicketId == ticket.Id && p.SheetId != sheet.Id && p.Sheet!.State != SheetState.Done && p.Sheet.State != SheetState.Cancelled)
                .Select(p => p.SheetId).Distinct().CountAsync(cancel);
            var ticketNumber = TrackingNumber.ForPeople(ticket.Order!.Number);
            if (others > 0)
            {
                sentences.Add($"Ticket {ticketNumber} still waits for {others} more {(others == 1 ? "sheet" : "sheets")}.");
                continue;
            }

            var unlaid = await db.Plates.CountAsync(p => p.TicketId == ticket.Id && !db.Placements.Any(l => l.PlateId == p.Id), cancel);
            if (unlaid > 0)
            {
                sentences.Add($"Ticket {ticketNumber} still waits for {unlaid} more {(unlaid == 1 ? "plate that has" : "plates that have")} no sheet yet.");
                continue;
            }

            ticket.State = TicketState.Done;
            ticket.DoneUtc = sheet.DoneUtc;
            sentences.Add($"Ticket {ticketNumber} is complete.");
        }

        return string.Join(" ", sentences);
    }

    private Task<List<Ticket>> TicketsAsync(Sheet sheet, CancellationToken cancel) =>
        db.Tickets
            .Include(t => t.Order)
            .Where(t => t.Plates.Any(p => db.Placements.Any(l => l.PlateId == p.Id && l.SheetId == sheet.Id)))
            .ToListAsync(cancel);

    private string On(Stage next) => room.EquipmentById(next.EquipmentId) is { } planned ? $", planned on {planned.Name}" : "";

    private string Left(DateTime until) => Durations.ForPeople(Math.Max(1, (until - At).TotalSeconds));

    private string Ends(DateTime over) => At < over
        ? $"It runs until {SiteClock.Near(over, nowUtc, room.Zone)}."
        : "Its time is over: press Finish.";
}
