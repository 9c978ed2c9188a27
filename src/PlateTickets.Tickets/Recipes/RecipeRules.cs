using System.Globalization;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Recipes;

/// <summary>What a recipe's settings must be before they are kept.</summary>
public static class RecipeRules
{
    private const double AnyIrradiance = 15;

    private static readonly SheetFacts Sample = new(900, 1200, 880);

    /// <exception cref="PlateRoomException">With the first setting that cannot be, and what to do.</exception>
    public static void Check(RecipeSettings settings, Material material, Room room, DateTime nowUtc)
    {
        var (thickness, filmBase) = (material.ThicknessUm / 1000.0, material.BaseUm / 1000.0);
        if (!(settings.BackExposure.FloorMm > filmBase && settings.BackExposure.FloorMm < thickness))
        {
            throw new PlateRoomException(string.Create(
                CultureInfo.InvariantCulture,
                $"The floor ({settings.BackExposure.FloorMm:0.00} mm) must lie between the base ({filmBase:0.000} mm) and the plate thickness ({thickness:0.00} mm)."));
        }

        if (settings.Imaging.LaserPowerPercent is not (> 0 and <= 100))
        {
            throw new PlateRoomException($"The laser power is {Numbers.ForPeople(settings.Imaging.LaserPowerPercent)} %, but must be above 0 and at most 100 %.");
        }

        if (settings.Limits is not { FloorMm: > 0 and < 1, ThicknessMm: > 0 and < 1, ReliefMm: > 0 and < 1, LampsPercent: > 0 and <= 100 })
        {
            throw new PlateRoomException("The limits of the readings must be above 0 and under 1 mm, and the lamps' above 0 and at most 100 %.");
        }

        if (settings.Drying is { } drying && !(drying.LongestSeconds >= drying.Seconds))
        {
            throw new PlateRoomException($"The longest drying time ({Durations.ForPeople(drying.LongestSeconds)}) is shorter than the drying time itself ({Durations.ForPeople(drying.Seconds)}).");
        }

        if ((settings.Washout.Process == WashoutProcess.Thermal) != (settings.Drying is null))
        {
            throw new PlateRoomException("After a thermal washout the sheet is dry: such a recipe has no drying, and every other recipe has one.");
        }

        // Whatever else cannot be is found by computing every stage on every machine that would do it.
        foreach (var station in settings.Route)
        {
            foreach (var machine in room.For(station, settings))
            {
                // A frame that was never read is no fault of the recipe.
                var facts = room.Facts[machine.Id];
                StageTimes.Compute(station, settings, facts with { FaceLamps = facts.FaceLamps ?? new LampReading(AnyIrradiance, nowUtc) }, Sample, nowUtc);
            }
        }
    }
}
