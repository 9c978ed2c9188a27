using Microsoft.EntityFrameworkCore;
using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;

namespace PlateTickets.Tickets.Stations;

/// <summary>A reading of a sheet that waits for its next stage: may it start here?</summary>
internal sealed class StartRules(ScanContext at)
{
    public async Task<ScanVerdict> DecideAsync(Sheet sheet, Stage stage, string number, CancellationToken cancel)
    {
        if (!at.Equipment.Serves.Contains(stage.Station))
        {
            return NotHere(sheet, stage, number);
        }

        var recipe = at.Room.Revisions[sheet.RecipeRevisionId].Settings;
        if (!Room.CanDo(at.Equipment, stage.Station, recipe))
        {
            var right = string.Join(" or ", at.Room.For(stage.Station, recipe).Select(e => e.Name));
            return new(ScanOutcome.WrongEquipment, $"{at.Equipment.Name} must not take sheet {number}: its material needs {right}.", stage.Station);
        }

        if (at.Request.Action == ScanAction.Finish)
        {
            return new(ScanOutcome.NotStarted, $"{stage.Station.Title()} of sheet {number} has not been started. Scan it to start.", stage.Station);
        }

        var down = at.Request.Confirmed ? null : at.Room.DownAt(at.Equipment.Id, at.Utc);
        // Without a connection nobody could be told, and the sheet is in.
        if (down is not null && !at.Request.Offline)
        {
            return new(
                ScanOutcome.MachineDown,
                $"{at.Equipment.Name} is marked down until {SiteClock.Near(down.ToUtc, at.NowUtc, at.Room.Zone)}{down.Because}. Do not put sheet {number} in. If it works again, press “It is in use again” on its page, then scan again.",
                stage.Station);
        }

        if (await UndecidedAsync(sheet, stage, number, cancel) is { } undecided)
        {
            return undecided;
        }

        if (await FullAsync(sheet, cancel) is { } full)
        {
            return full with { Station = stage.Station };
        }

        var ready = PlanInput.Ready(sheet, DateTime.MinValue);
        if (at.Utc < ready && !at.Request.Confirmed)
        {
            return new(
                ScanOutcome.TooEarly,
                $"Sheet {number} must rest until {SiteClock.Near(ready, at.NowUtc, at.Room.Zone)} before {stage.Station.Title().ToLowerInvariant()}: still {at.Left(ready)}.",
                stage.Station);
        }

        var (time, refusal) = StageTiming.TryCompute(at.Room, sheet, stage.Station, at.Equipment, at.Utc);
        if (time is null)
        {
            return new(ScanOutcome.NoTime, $"Sheet {number} cannot start. {refusal}", stage.Station);
        }

        var open = CheckLists.MustTick(stage.Station, recipe) & ~at.Request.Ticked;
        // Without a connection nobody was shown the list; the scan keeps that it was read so.
        if (open != CheckPoint.None && !at.Request.Offline)
        {
            var points = string.Join(", ", CheckLists.For(stage.Station, recipe).Where(p => open.HasFlag(p)).Select(p => p.Title().ToLowerInvariant()));
            return new(
                ScanOutcome.ChecksOpen,
                $"Before {stage.Station.Title().ToLowerInvariant()} of sheet {number}, tick: {points}. Then press Start or scan again.",
                stage.Station);
        }

        await StartAsync(sheet, stage, time, cancel);
        var remarks = (open == CheckPoint.None ? "" : " Its check list was not ticked: it was read without a connection.") + (down is null ? "" : $" {at.Equipment.Name} was marked down then: see that it works.");
        return new(
            ScanOutcome.Started,
            $"{stage.Station.Title()} of sheet {number} started on {at.Equipment.Name}. Run {Durations.ForPeople(stage.RunSeconds)}.{remarks}",
            stage.Station);
    }

    /// <summary>What a lead must decide before the sheet goes on: a reading out of limits, or a wait that was too long.</summary>
    private async Task<ScanVerdict?> UndecidedAsync(Sheet sheet, Stage stage, string number, CancellationToken cancel)
    {
        if (await at.Facts.OpenFindingAsync(sheet, cancel) is { } finding)
        {
            return new(
                ScanOutcome.ReadingOpen,
                $"Sheet {number} does not go on yet. {finding} Decide on its card: accept it with a reason, make the sheet again, or put it on hold.",
                stage.Station);
        }

        if (WaitRules.Exceeded(at.Room, sheet, at.Utc) is not { } wait
            || await at.Db.StageDecisions.AnyAsync(d => d.SheetId == sheet.Id && d.Station == stage.Station && d.Kind == StageDecisionKind.GoOn, cancel))
        {
            return null;
        }

        return new(
            ScanOutcome.WaitedTooLong,
            $"{wait.Say(number)} Do not start it: put it in the dark and ask the lead, who lets it go on with a reason, repeats a stage, or has it made again.",
            stage.Station);
    }

    private ScanVerdict NotHere(Sheet sheet, Stage next, string number)
    {
        if (sheet.Stages.Where(s => s.State == StageState.Done && at.Equipment.Serves.Contains(s.Station)).MaxBy(s => s.Station) is { } done)
        {
            return new(
                ScanOutcome.AlreadyFinished,
                $"{done.Station.Title()} of sheet {number} was finished at {SiteClock.Near(done.FinishedUtc!.Value, at.NowUtc, at.Room.Zone)} already. Next is {next.Station.Title().ToLowerInvariant()}{at.On(next)}.",
                done.Station);
        }

        return new(
            ScanOutcome.WrongStation,
            $"Sheet {number} is not for {at.Equipment.Name} now. Next is {next.Station.Title().ToLowerInvariant()}{at.On(next)}.",
            next.Station);
    }

    private async Task<ScanVerdict?> FullAsync(Sheet sheet, CancellationToken cancel)
    {
        // A line takes the next sheet while the last one is still inside.
        if (at.Equipment.Kind == EquipmentKind.Line)
        {
            return null;
        }

        var inside = (await at.Facts.InsideAsync(at.Equipment.Id, cancel)).Where(i => i.SheetId != sheet.Id).ToList();
        if (inside.Count < at.Equipment.Slots)
        {
            return null;
        }

        var first = inside[0];
        var what = at.Equipment.Slots == 1 ? "still holds" : $"has all {at.Equipment.Slots} drawers full; longest in is";
        return new(
            ScanOutcome.MachineBusy,
            $"Sheet {TrackingNumber.ForPeople(sheet.Number)} cannot start: {at.Equipment.Name} {what} sheet {TrackingNumber.ForPeople(first.Number)}, started at {SiteClock.Near(first.StartedUtc, at.NowUtc, at.Room.Zone)}. Finish that one first.");
    }

    private async Task StartAsync(Sheet sheet, Stage stage, StageTime time, CancellationToken cancel)
    {
        StageTiming.Write(stage, at.Equipment, time);
        stage.State = StageState.Running;
        // A clock that was corrected cannot make a sheet start before it came out of the stage before.
        stage.StartedUtc = sheet.Stages.Where(s => s.State == StageState.Done).Max(s => s.FinishedUtc) is { } before && before > at.Utc ? before : at.Utc;
        stage.StartedBy = at.Request.By;
        sheet.State = SheetState.Running;
        sheet.CurrentStation = stage.Station;
        at.ActsOn(sheet);
        foreach (var ticket in await at.Facts.TicketsAsync(sheet, cancel))
        {
            if (ticket.State == TicketState.Ready)
            {
                at.ActsOn(ticket);
                ticket.State = TicketState.InWork;
            }
        }
    }
}
