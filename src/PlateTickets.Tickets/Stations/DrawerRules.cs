using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>The code on a drawer: it says in which drawer the sheet lies that was read just before.</summary>
internal sealed class DrawerRules(ScanContext at)
{
    public async Task<ScanVerdict> DecideAsync(string number, Sheet? sheet, CancellationToken cancel)
    {
        if (Drawers.Find(at.Room, number) is not { } found)
        {
            return new(ScanOutcome.DrawerAlone, $"No drawer of this room has the number {TrackingNumber.ForPeople(number)}. Print its label anew.");
        }

        var (machine, drawer) = found;
        if (machine.Id != at.Equipment.Id)
        {
            return new(ScanOutcome.DrawerAlone, $"That is drawer {drawer} of {machine.Name}, and this page is for {at.Equipment.Name}. Scan it on the page of {machine.Name}.");
        }

        var inside = (await at.Facts.InsideAsync(machine.Id, cancel)).FirstOrDefault(i => i.Drawer == drawer);
        var stage = sheet?.Stages.Find(s => s.State == StageState.Running && s.EquipmentId == machine.Id);
        if (stage is null)
        {
            return new(ScanOutcome.DrawerAlone, inside is null
                ? $"Drawer {drawer} is empty. Scan the sheet first, then its drawer."
                : $"Drawer {drawer} holds sheet {TrackingNumber.ForPeople(inside.Number)} since {SiteClock.Near(inside.StartedUtc, at.NowUtc, at.Room.Zone)}. To put a sheet in, scan the sheet first, then an empty drawer.");
        }

        var people = TrackingNumber.ForPeople(sheet!.Number);
        if (inside is not null && inside.SheetId != sheet.Id)
        {
            return new(
                ScanOutcome.DrawerTaken,
                $"Drawer {drawer} holds sheet {TrackingNumber.ForPeople(inside.Number)} since {SiteClock.Near(inside.StartedUtc, at.NowUtc, at.Room.Zone)}. Put sheet {people} into an empty drawer and scan that one.",
                stage.Station);
        }

        stage.Drawer = drawer;
        return new(ScanOutcome.DrawerSet, $"Sheet {people} is in drawer {drawer}. Scan the next sheet.", stage.Station);
    }
}
