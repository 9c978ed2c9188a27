using PlateTickets.Process.Recipes;

namespace PlateTickets.Process.Finishing;

/// <summary>Cutting and inspection: so many seconds for each plate (common practice: a table, a knife, a lamp and a pair of eyes).</summary>
internal static class Cutting
{
    public static StageTime Time(CuttingSettings recipe, EquipmentFacts table, SheetFacts sheet)
    {
        var each = Guard.AtLeast(recipe.SecondsPerPlate, 0, "The cutting time of a plate", "s");
        var plates = Guard.AtLeast(sheet.Plates, 1, "The number of plates on the sheet", "");
        var count = $"{Numbers.ForPeople(plates, 0)} {(sheet.Plates == 1 ? "plate" : "plates")}";
        return StageTime.Of(
            Station.Cutting, recipe.Handling, each * plates, $"{count} × {Durations.ForPeople(each)} each, {table.Name}",
            [new("Plates to cut", count)],
            "time = plates × time for each plate",
            [new("Plates", Numbers.ForPeople(plates, 0), "layout"), new("Time for each plate", Durations.ForPeople(each), "recipe")]) with
        { RunIsAttended = true };
    }
}
