using PlateTickets.Process.Recipes;

namespace PlateTickets.Process.Exposure;

/// <summary>Face (main) exposure: time = dose / irradiance, with the newest reading of the face lamps.</summary>
internal static class FaceExposure
{
    public static StageTime Time(FaceExposureSettings recipe, EquipmentFacts frame, DateTime nowUtc)
    {
        if (frame.FaceLamps is not { } reading)
        {
            throw new PlateRoomException($"{frame.Name} has no reading of its face lamps, so its exposure time is unknown: read them with the radiometer and enter the value.");
        }

        var seconds = Reciprocity.Seconds(recipe.DoseMjPerCm2, reading.IrradianceMwPerCm2);
        return StageTime.Of(
            Station.FaceExposure, recipe.Handling, seconds,
            $"{Numbers.ForPeople(recipe.DoseMjPerCm2)} mJ/cm² / {Numbers.ForPeople(reading.IrradianceMwPerCm2, 2)} mW/cm², {LampReadings.Source(frame, reading)}",
            [new("Exposure time", Durations.ForPeople(seconds)), new("Dose", $"{Numbers.ForPeople(recipe.DoseMjPerCm2)} mJ/cm²")],
            "time = dose / irradiance",
            [
                new("Dose", $"{Numbers.ForPeople(recipe.DoseMjPerCm2)} mJ/cm²", "recipe"),
                new("Irradiance", $"{Numbers.ForPeople(reading.IrradianceMwPerCm2, 2)} mW/cm²", LampReadings.Source(frame, reading)),
            ],
            flags: LampReadings.Flags(frame, reading, "face", nowUtc));
    }
}
