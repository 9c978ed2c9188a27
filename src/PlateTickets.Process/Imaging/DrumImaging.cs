using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;

namespace PlateTickets.Process.Imaging;

/// <summary>
/// Imaging on a drum: each revolution writes as many image lines as there are laser channels, then the head moves on along the
/// axis. Plates that lie around the drum cost no extra time, plates along its axis do (common practice).
/// </summary>
public static class DrumImaging
{
    /// <summary>Pixel pitch in mm of a resolution in pixels per inch (above 0): 25.4 / ppi.</summary>
    public static double PixelPitchMm(double pixelsPerInch) => 25.4 / Guard.Above(pixelsPerInch, 0, "The resolution", "ppi");

    /// <summary>Axial feed in mm/min: pitch x channels x revolutions per minute. All above 0.</summary>
    public static double FeedMmPerMin(double pixelsPerInch, int channels, double revolutionsPerMinute) =>
        PixelPitchMm(pixelsPerInch)
        * Guard.Above(channels, 0, "The number of laser channels", "")
        * Guard.Above(revolutionsPerMinute, 0, "The drum speed", "revolutions a minute");

    /// <summary>Time in s to travel an axial extent in mm (0 or more) at a feed in mm/min (above 0).</summary>
    public static double Seconds(double axialExtentMm, double feedMmPerMin) =>
        Guard.AtLeast(axialExtentMm, 0, "The axial extent", "mm") / Guard.Above(feedMmPerMin, 0, "The axial feed", "mm/min") * 60;

    internal static StageTime Time(ImagingSettings recipe, EquipmentFacts imager, SheetFacts sheet, LengthSystem units)
    {
        if (imager.LaserChannels is not { } channels || imager.DrumRpm is not { } rpm)
        {
            throw new PlateRoomException($"{imager.Name} has no drum speed or number of laser channels, so its imaging time is unknown: enter both.");
        }

        var feed = FeedMmPerMin(recipe.ResolutionPpi, channels, rpm);
        var seconds = Seconds(sheet.AxialExtentMm, feed);
        return StageTime.Of(
            Station.Imaging, recipe.Handling, seconds,
            $"{units.Show(sheet.AxialExtentMm)} along the axis / {units.Speed(feed)} ({Numbers.ForPeople(recipe.ResolutionPpi, 0)} ppi, {channels} channels, {Numbers.ForPeople(rpm, 0)} rev/min), {imager.Name}",
            [new("Resolution", $"{Numbers.ForPeople(recipe.ResolutionPpi, 0)} ppi"), new("Laser power", $"{Numbers.ForPeople(recipe.LaserPowerPercent)} %")],
            "time = axial extent / (pixel pitch × channels × revolutions a minute)",
            [
                new("Axial extent", units.Show(sheet.AxialExtentMm), "layout"),
                new("Pixel pitch", units.Small(PixelPitchMm(recipe.ResolutionPpi)), $"recipe, {Numbers.ForPeople(recipe.ResolutionPpi, 0)} ppi"),
                new("Laser channels", $"{channels}", imager.Name),
                new("Drum speed", $"{Numbers.ForPeople(rpm, 0)} rev/min", imager.Name),
            ]);
    }
}
