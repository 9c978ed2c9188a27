using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;

namespace PlateTickets.Process.Exposure;

/// <summary>Back exposure: the recipe's time, scaled to the newest reading of the back lamps so that the dose stays the same.</summary>
internal static class BackExposure
{
    public static StageTime Time(BackExposureSettings recipe, EquipmentFacts frame, DateTime nowUtc, LengthSystem units)
    {
        if (frame.BackLamps is not { } reading)
        {
            return Result(
                recipe,
                units,
                Guard.Above(recipe.SecondsAtReference, 0, "The recipe's back exposure time", "s"),
                $"the recipe's time; {frame.Name} has no reading of its back lamps",
                "time = the recipe's time",
                [new("Exposure time", $"{Numbers.ForPeople(recipe.SecondsAtReference)} s", "recipe")],
                [$"{frame.Name} has no reading of its back lamps: the recipe's time is used as it is. Read the lamps and enter the value."]);
        }

        var seconds = Reciprocity.ScaledSeconds(recipe.SecondsAtReference, recipe.ReferenceIrradianceMwPerCm2, reading.IrradianceMwPerCm2);
        return Result(
            recipe,
            units,
            seconds,
            $"{Numbers.ForPeople(recipe.SecondsAtReference)} s × {Numbers.ForPeople(recipe.ReferenceIrradianceMwPerCm2)} / {Numbers.ForPeople(reading.IrradianceMwPerCm2, 2)} mW/cm², {LampReadings.Source(frame, reading)}",
            "time = recipe's time × reference irradiance / irradiance (same dose)",
            [
                new("Exposure time", $"{Numbers.ForPeople(recipe.SecondsAtReference)} s", "recipe"),
                new("Reference irradiance", $"{Numbers.ForPeople(recipe.ReferenceIrradianceMwPerCm2, 2)} mW/cm²", "recipe"),
                new("Irradiance", $"{Numbers.ForPeople(reading.IrradianceMwPerCm2, 2)} mW/cm²", LampReadings.Source(frame, reading)),
            ],
            LampReadings.Flags(frame, reading, "back", nowUtc));
    }

    private static StageTime Result(
        BackExposureSettings recipe, LengthSystem units, double seconds, string how, string formula, IReadOnlyList<StageInput> inputs, IReadOnlyList<string> flags) => StageTime.Of(
        Station.BackExposure, recipe.Handling, seconds, how,
        [new("Exposure time", Durations.ForPeople(seconds)), new("Floor", units.Thickness(recipe.FloorMm))],
        formula, inputs, flags: flags);
}
