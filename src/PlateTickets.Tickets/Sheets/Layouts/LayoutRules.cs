using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Layouts;

/// <summary>What a layout must keep to before it is released, whoever made it.</summary>
internal static class LayoutRules
{
    /// <exception cref="PlateRoomException">With the first thing that is wrong.</exception>
    public static void Check(Room room, int materialId, IReadOnlyList<NestSheet> sheets, List<Plate> waiting)
    {
        if (sheets.Count == 0 || sheets.Any(s => s.Plates.Count == 0))
        {
            throw new PlateRoomException("There is nothing to release: a sheet must carry at least one plate.");
        }

        var known = waiting.ToDictionary(p => p.Id);
        var laid = sheets.SelectMany(s => s.Plates).ToList();
        if (laid.DistinctBy(p => p.PlateId).Count() < laid.Count)
        {
            throw new PlateRoomException("A plate lies on two places of the layout: leave one of them out.");
        }

        if (laid.Exists(p => !known.ContainsKey(p.PlateId)))
        {
            throw new PlateRoomException("Some of these plates have a sheet by now, or their ticket was cancelled: look at the waiting plates again, nothing was released.");
        }

        if (waiting.Exists(p => p.Ticket!.Order!.MaterialId != materialId))
        {
            throw new PlateRoomException("Plates of two materials cannot share a layout.");
        }

        foreach (var placed in laid)
        {
            var plate = known[placed.PlateId];
            if ((placed.Width, placed.Length) != (placed.Rotated ? (plate.LengthUm, plate.WidthUm) : ((long)plate.WidthUm, (long)plate.LengthUm)))
            {
                throw new PlateRoomException("A plate on the layout has another size than its file: look at the waiting plates again.");
            }
        }

        if (laid.GroupBy(p => known[p.PlateId].TicketId).FirstOrDefault(t => t.Select(p => p.Rotated).Distinct().Count() > 1) is { } mixed)
        {
            var number = waiting.First(p => p.TicketId == mixed.Key).Ticket!.Order!.Number;
            throw new PlateRoomException(
                $"Ticket {TrackingNumber.ForPeople(number)} lies partly along and partly across: its plates would stretch differently. Turn them all the same way.");
        }

        if (sheets.SelectMany((s, i) => LayoutChecker.Violations(s, room.NestRules).Select(v => $"Sheet {i + 1}: {v}")).FirstOrDefault() is { } violation)
        {
            throw new PlateRoomException(violation);
        }
    }
}
