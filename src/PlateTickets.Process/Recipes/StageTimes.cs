using PlateTickets.Process.Exposure;
using PlateTickets.Process.Finishing;
using PlateTickets.Process.Imaging;
using PlateTickets.Process.Units;
using PlateTickets.Process.Washout;

namespace PlateTickets.Process.Recipes;

/// <summary>The time of a stage from recipe, machine and sheet.</summary>
public static class StageTimes
{
    /// <param name="station">The station.</param>
    /// <param name="recipe">The revision's settings.</param>
    /// <param name="equipment">The machine with its newest readings.</param>
    /// <param name="sheet">Its size and axial extent.</param>
    /// <param name="nowUtc">For the age of readings.</param>
    /// <param name="units">In which units settings and explanation are written.</param>
    /// <exception cref="PlateRoomException">A value is missing or cannot be; the sentence says what to check.</exception>
    public static StageTime Compute(Station station, RecipeSettings recipe, EquipmentFacts equipment, SheetFacts sheet, DateTime nowUtc,
        LengthSystem units = LengthSystem.Metric) => station switch
        {
            Station.BackExposure => BackExposure.Time(recipe.BackExposure, equipment, nowUtc, units),
            Station.Imaging => DrumImaging.Time(recipe.Imaging, equipment, sheet, units),
            Station.FaceExposure => FaceExposure.Time(recipe.FaceExposure, equipment, nowUtc),
            Station.Washout => LineWasher.Time(recipe.Washout, equipment, sheet, units),
            Station.Drying => recipe.Drying is { } drying
                ? Drying.Time(drying, recipe.Washout.Process, equipment)
                : throw new PlateRoomException("This recipe has no drying: after a thermal washout the sheet is dry."),
            Station.PostFinish => PostFinish.Time(recipe.PostFinish, equipment),
            Station.Cutting => recipe.Cutting is { } cutting
                ? Cutting.Time(cutting, equipment, sheet)
                : throw new PlateRoomException("This recipe has no cutting: its sheets are done after post-finish."),
            _ => throw new ArgumentOutOfRangeException(nameof(station), station, "There is no such station."),
        };
}
