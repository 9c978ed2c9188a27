using PlateTickets.Planning.Nesting;
using PlateTickets.Process;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets;

/// <summary>What a sheet is made by: a size that fits, the released recipe, its stages.</summary>
public static class SheetMaker
{
    /// <summary>Does one plate of this size fit on any stock size of the material, along or across? Micrometres. A page may ask at every drawing.</summary>
    public static bool Fits(Room room, int materialId, long widthUm, long lengthUm) => PlateNesting.Fits(
        [.. room.StockSizes.Where(s => s.MaterialId == materialId).Select(s => new NestStock(s.Id, s.WidthUm, s.LengthUm))], room.NestRules, widthUm, lengthUm);

    /// <exception cref="PlateRoomException">The material has no released recipe.</exception>
    public static RecipeRevision Recipe(Room room, int materialId) => room.Released(materialId)
        ?? throw new PlateRoomException($"{room.Materials[materialId].Name} has no released recipe: the plate-room lead must release one before sheets can be made.");

    internal static Sheet SheetOf(
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
