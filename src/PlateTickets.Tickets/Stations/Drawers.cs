using PlateTickets.Planning.Scheduling;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>The numbers that stand on the drawers of a dryer, to be scanned. They follow from the machine and the drawer, so that a label can be printed again.</summary>
public static class Drawers
{
    // Room for numbers whose check character is never given out: of eight neighbours at least one is good (tested for every machine up to 200).
    private const int Places = 8;
    private const int MostSlots = 100;

    /// <param name="equipmentId">The machine.</param>
    /// <param name="drawer">1 up to the machine's slots.</param>
    public static string NumberOf(int equipmentId, int drawer)
    {
        var first = (((long)equipmentId * MostSlots) + drawer) * Places;
        for (var place = 0; place < Places; place++)
        {
            if (TrackingNumber.FromSequence(NumberKind.Drawer, first + place) is { } number)
            {
                return number;
            }
        }

        throw new InvalidOperationException($"Drawer {drawer} of machine {equipmentId} has no number.");
    }

    /// <summary>The machine and drawer of a number, or null when this room has no such drawer.</summary>
    public static (Equipment Machine, int Drawer)? Find(Room room, string number) =>
        room.Equipment.Where(e => e.Kind == EquipmentKind.Slots)
            .SelectMany(e => Enumerable.Range(1, e.Slots).Select(d => ((Equipment Machine, int Drawer)?)(e, d)))
            .FirstOrDefault(d => NumberOf(d!.Value.Machine.Id, d.Value.Drawer) == number);
}
