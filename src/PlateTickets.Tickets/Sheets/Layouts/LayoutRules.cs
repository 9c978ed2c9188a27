using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Layouts;

/// <summary>What a layout must keep to before it is released, whoever made it.</summary>
public static class LayoutRules
{
    /// <summary>A sentence for each ticket whose plates do not all lie the same way.</summary>
    /// <param name="sheets">The layout.</param>
    /// <param name="ticketOf">The number of a plate's ticket, by the plate's id.</param>
    public static IEnumerable<string> MixedTickets(IEnumerable<NestSheet> sheets, Func<int, string> ticketOf) => sheets.SelectMany(s => s.Plates)
        .GroupBy(p => ticketOf(p.PlateId)).Where(t => t.Select(p => p.Rotated).Distinct().Count() > 1)
        .Select(t => $"Ticket {TrackingNumber.ForPeople(t.Key)} lies partly along and partly across: its plates would stretch differently. Turn the whole ticket.");

    /// <exception cref="PlateRoomException">With the first thing that is wrong.</exception>
    internal static void Check(Room room, int materialId, IReadOnlyList<NestSheet> sheets, List<Plate> waiting)
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

        if (MixedTickets(sheets, p => known[p].Ticket!.Order!.Number).FirstOrDefault() is { } mixed)
        {
            throw new PlateRoomException(mixed);
        }

        if (sheets.SelectMany((s, i) => LayoutChecker.Violations(s, room.NestRules).Select(v => $"Sheet {i + 1}: {v}")).FirstOrDefault() is { } violation)
        {
            throw new PlateRoomException(violation);
        }
    }
}
