using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets;

/// <summary>Lays a ticket's plates on raw sheets and gives each sheet its stages.</summary>
public static class SheetMaker
{
    /// <summary>The plates' places on sheets of the material's stock sizes; <see cref="NestResult.TooLarge"/> holds what fits on none.</summary>
    public static NestResult Lay(Room room, int materialId, IEnumerable<NestPlate> plates)
    {
        var stocks = room.StockSizes.Where(s => s.MaterialId == materialId).Select(s => new NestStock(s.Id, s.WidthUm, s.LengthUm)).ToList();
        return PlateNesting.Nest([.. plates], stocks, room.NestRules);
    }

    /// <summary>Does one plate of this size fit on any stock size of the material? Micrometres.</summary>
    public static bool Fits(Room room, int materialId, long widthUm, long lengthUm) =>
        Lay(room, materialId, [new NestPlate(0, widthUm, lengthUm)]).TooLarge.Count == 0;

    /// <summary>New sheets for a ticket whose plates are saved. Numbers are taken from the sequence in the same context.</summary>
    /// <exception cref="PlateRoomException">The material has no released recipe, or a plate fits on no stock size.</exception>
    public static List<Sheet> Make(Room room, Order order, IReadOnlyList<Plate> plates, NumberSequence numbers, DateTime nowUtc)
    {
        var material = room.Materials[order.MaterialId];
        var revision = room.Released(material.Id)
            ?? throw new PlateRoomException($"{material.Name} has no released recipe: the plate-room lead must release one before sheets can be made.");
        var result = Lay(room, material.Id, plates.Select(p => new NestPlate(p.Id, p.WidthUm, p.LengthUm)));
        if (result.TooLarge.Count > 0)
        {
            throw new PlateRoomException(
                $"{result.TooLarge.Count} of the {plates.Count} plates fit on no stock size of {material.Name}: choose another material or check the files' sizes.");
        }

        return [.. result.Sheets.Select(s => SheetOf(s, material.Id, revision.Id, revision.Settings.Route, numbers, nowUtc))];
    }

    private static Sheet SheetOf(
        NestSheet nested, int materialId, int revisionId, IEnumerable<Station> route, NumberSequence numbers, DateTime nowUtc)
    {
        var stages = route.Select(station => new Stage { Station = station }).ToList();
        return new Sheet
        {
            Number = numbers.Take(),
            MaterialId = materialId,
            RecipeRevisionId = revisionId,
            WidthUm = (int)nested.Width,
            LengthUm = (int)nested.Length,
            AxialExtentUm = (int)nested.AxialExtent,
            PlateCount = nested.Plates.Count,
            State = SheetState.Waiting,
            CurrentStation = stages[0].Station,
            MadeUtc = nowUtc,
            Stages = stages,
            Placements = [.. nested.Plates.Select((p, i) => new Placement
            {
                PlateId = p.PlateId,
                Mark = i + 1,
                XUm = (int)p.X,
                YUm = (int)p.Y,
                WidthUm = (int)p.Width,
                LengthUm = (int)p.Length,
                Rotated = p.Rotated,
            })],
        };
    }
}
