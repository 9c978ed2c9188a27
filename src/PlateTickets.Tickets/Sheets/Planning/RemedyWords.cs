using PlateTickets.Process;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>Says what would help a ticket.</summary>
public static class RemedyWords
{
    /// <summary>Such as "Rush it: done 13:20, in time; 2 others come late then".</summary>
    public static string Say(TicketHelp help, Room room, DateTime nowUtc)
    {
        if (help.Best is not { } best)
        {
            return $"Nothing tried helps ({string.Join(", ", help.Tried.Select(Name))}): tell the customer";
        }

        var done = SiteClock.Near(best.AfterUtc, nowUtc, room.Zone);
        var sooner = Durations.ForPeople(Math.Round((best.BeforeUtc - best.AfterUtc).TotalMinutes) * 60);
        var others = best.MadeLate switch { 0 => "", 1 => "; 1 other comes late then", _ => $"; {best.MadeLate} others come late then" };
        return $"{What(best, room, nowUtc)}: done {done}, {(best.InTime ? "in time" : $"{sooner} sooner, still late")}{others}";
    }

    private static string What(Remedy remedy, Room room, DateTime nowUtc) => remedy.Kind switch
    {
        RemedyKind.Rush => "Rush it",
        RemedyKind.MachineBack => $"Bring {room.EquipmentById(remedy.EquipmentId)?.Name ?? "the machine"} back now",
        RemedyKind.MoreHands => $"One more operator now until {SiteClock.Near(remedy.UntilUtc!.Value, nowUtc, room.Zone)}",
        _ => $"Overtime of {remedy.People} until {SiteClock.Near(remedy.UntilUtc!.Value, nowUtc, room.Zone)}",
    };

    private static string Name(RemedyKind kind) => kind switch
    {
        RemedyKind.Rush => "a rush",
        RemedyKind.MachineBack => "machines back",
        RemedyKind.MoreHands => "one more operator",
        _ => "2 h of overtime",
    };
}
