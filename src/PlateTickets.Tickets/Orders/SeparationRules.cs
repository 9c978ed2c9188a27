using System.Globalization;
using PlateTickets.Tickets.Orders.Separations;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Orders;

/// <summary>What a set of separations must be before plates are made of it.</summary>
public static class SeparationRules
{
    public static int Micrometres(double mm) => (int)Math.Round(mm * 1000);

    /// <summary>The sentence for a file that cannot become a plate of this material, or null.</summary>
    public static string? CheckOne(SeparationFacts facts, int materialId, Room room)
    {
        if (string.IsNullOrWhiteSpace(facts.Colour))
        {
            return $"{facts.FileName}: the colour is neither in the file nor in its name. Type it.";
        }

        if (SheetMaker.Fits(room, materialId, Micrometres(facts.WidthMm), Micrometres(facts.HeightMm)))
        {
            return null;
        }

        var largest = room.StockSizes.Where(s => s.MaterialId == materialId).MaxBy(s => (long)s.WidthUm * s.LengthUm);
        var material = room.Materials[materialId].Name;
        var have = largest is null
            ? $"{material} has no stock size yet"
            : string.Create(
                CultureInfo.InvariantCulture,
                $"the largest sheet of {material} is {largest.WidthUm / 1000.0:0.#} × {largest.LengthUm / 1000.0:0.#} mm, less its rims");
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{facts.FileName} is {facts.WidthMm:0.0} × {facts.HeightMm:0.0} mm and fits on no stock size: {have}. Check the file's resolution, or choose another material.");
    }

    /// <summary>Adds a sentence for each file that cannot be taken, and for colours that come twice.</summary>
    public static void Check(
        IReadOnlyList<ReadSeparation> added, IReadOnlyList<Separation> present, int copies, int materialId, Room room, Dictionary<string, string> errors)
    {
        var colours = present.Select(s => s.Colour).ToHashSet(StringComparer.OrdinalIgnoreCase);
        foreach (var (facts, _, _) in added)
        {
            if (CheckOne(facts, materialId, room) is { } wrong)
            {
                errors[facts.FileName] = wrong;
            }
            else if (!colours.Add(facts.Colour.Trim()))
            {
                errors[facts.FileName] = $"{facts.FileName}: this job has a {facts.Colour.Trim()} already. Change the colour, or leave one file out.";
            }
        }

        var plates = (present.Count + added.Count) * copies;
        if (plates > OrderRules.MostPlates)
        {
            errors[nameof(NewOrder.Copies)] = $"{plates} plates are more than a ticket may have ({OrderRules.MostPlates}): split the order.";
        }
    }
}
