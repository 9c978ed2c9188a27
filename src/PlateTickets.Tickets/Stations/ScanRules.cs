using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>Decides what one reading means and, when it is accepted, changes the sheet accordingly (the caller saves).</summary>
internal sealed class ScanRules(ScanContext at)
{
    public async Task<ScanVerdict> DecideAsync(ReadNumber read, Sheet? sheet, CancellationToken cancel)
    {
        // A lot's label is no number of ours: after a sheet it is read as that sheet's lot.
        if (read.Fault == NumberFault.NotANumber && sheet is not null && await new LotRules(at).DecideAsync(read.Cleaned, sheet, cancel) is { } lot)
        {
            return lot;
        }

        if (Unreadable(read, sheet) is { } refusal)
        {
            return refusal;
        }

        if (at.Utc > at.NowUtc + ScanDesk.ClockTolerance)
        {
            return new(ScanOutcome.WrongClock, "This reader's clock runs ahead of the server's. Set its clock, then scan again.");
        }

        if (read.Kind == NumberKind.Drawer)
        {
            return await new DrawerRules(at).DecideAsync(read.Number!, sheet, cancel);
        }

        var number = TrackingNumber.ForPeople(sheet!.Number);
        // What is in a machine may come out of it, on hold or not.
        if (sheet.State == SheetState.OnHold && !sheet.Stages.Exists(s => s.State == StageState.Running && s.EquipmentId == at.Equipment.Id))
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
            ? await new FinishRules(at).DecideAsync(sheet, stage, number, cancel)
            : await new StartRules(at).DecideAsync(sheet, stage, number, cancel);
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
            "That is a badge. Scan the sheet's traveler; a badge changes the person on a station's page only."),
        _ when sheet is null && read.Kind == NumberKind.Sheet => new(
            ScanOutcome.UnknownSheet,
            $"No sheet has the number {TrackingNumber.ForPeople(read.Number!)}. The traveler may come from another room: ask the lead."),
        _ => null,
    };
}
