using System.Globalization;

namespace PlateTickets.Process.Recipes;

/// <summary>The time of a stage from recipe, machine and sheet.</summary>
public static class StageTimes
{
    public static StageTime Compute(Station station, RecipeSettings recipe, EquipmentFacts equipment, SheetFacts sheet, DateTime nowUtc)
    {
        var flags = new List<string>();
        switch (station)
        {
            case Station.BackExposure:
            {
                var back = recipe.BackExposure;
                var reading = equipment.BackLamps;
                var i = reading?.IrradianceMwPerCm2 ?? back.ReferenceIrradianceMwPerCm2;
                var run = back.SecondsAtReference * back.ReferenceIrradianceMwPerCm2 / i;
                return Of(station, back.Handling, run, run, 0, string.Create(CultureInfo.InvariantCulture, $"{Durations.ForPeople(run)} = {back.SecondsAtReference} s × {back.ReferenceIrradianceMwPerCm2} / {i} mW/cm², {equipment.Name}"),
                    [new("Exposure time", Durations.ForPeople(run)), new("Floor", string.Create(CultureInfo.InvariantCulture, $"{back.FloorMm:0.00} mm"))], flags);
            }

            case Station.Imaging:
            {
                var feed = 25.4 / recipe.Imaging.ResolutionPpi * equipment.LaserChannels!.Value * equipment.DrumRpm!.Value;
                var run = sheet.AxialExtentMm / feed * 60;
                return Of(station, recipe.Imaging.Handling, run, run, 0, string.Create(CultureInfo.InvariantCulture, $"{Durations.ForPeople(run)} = {sheet.AxialExtentMm:0} mm / {feed:0.0} mm/min, {equipment.Name}"),
                    [new("Resolution", string.Create(CultureInfo.InvariantCulture, $"{recipe.Imaging.ResolutionPpi:0} ppi")), new("Laser power", string.Create(CultureInfo.InvariantCulture, $"{recipe.Imaging.LaserPowerPercent:0} %"))], flags);
            }

            case Station.FaceExposure:
            {
                var i = equipment.FaceLamps?.IrradianceMwPerCm2 ?? throw new PlateRoomException($"{equipment.Name} has no reading of its face lamps.");
                var run = recipe.FaceExposure.DoseMjPerCm2 / i;
                return Of(station, recipe.FaceExposure.Handling, run, run, 0, string.Create(CultureInfo.InvariantCulture, $"{Durations.ForPeople(run)} = {recipe.FaceExposure.DoseMjPerCm2} mJ/cm² / {i} mW/cm², {equipment.Name}"),
                    [new("Exposure time", Durations.ForPeople(run))], flags);
            }

            case Station.Washout:
            {
                var wash = recipe.Washout;
                if (wash.TransportMmPerMin is { } speed)
                {
                    var run = (sheet.LengthMm + equipment.LineLengthMm!.Value) / speed * 60;
                    return Of(station, wash.Handling, run, (sheet.LengthMm + equipment.LineGapMm!.Value) / speed * 60, 0, Durations.ForPeople(run), [new("Transport speed", string.Create(CultureInfo.InvariantCulture, $"{speed} mm/min"))], flags);
                }

                return Of(station, wash.Handling, wash.BatchSeconds!.Value, wash.BatchSeconds.Value, 0, Durations.ForPeople(wash.BatchSeconds.Value), [], flags);
            }

            case Station.Drying:
                return Of(station, recipe.Drying!.Handling, recipe.Drying.Seconds, recipe.Drying.Seconds, recipe.Drying.RestSeconds, Durations.ForPeople(recipe.Drying.Seconds), [], flags);
            default:
            {
                var post = recipe.PostFinish;
                var run = post.AtOnce ? Math.Max(post.PostExposureSeconds, post.LightFinishingSeconds) : post.PostExposureSeconds + post.LightFinishingSeconds;
                return Of(station, post.Handling, run, run, 0, Durations.ForPeople(run), [], flags);
            }
        }
    }

    private static StageTime Of(Station station, Handling h, double run, double occupies, double rest, string why, IReadOnlyList<Setting> settings, IReadOnlyList<string> flags) =>
        new(station, h.LoadSeconds, run, h.UnloadSeconds, occupies, rest, why, settings, flags);
}
