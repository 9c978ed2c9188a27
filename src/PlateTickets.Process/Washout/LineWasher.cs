using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;

namespace PlateTickets.Process.Washout;

/// <summary>Washout: in a line the way decides the time, in a batch washer the recipe (common practice).</summary>
public static class LineWasher
{
    /// <summary>Time in s that a sheet is inside: (sheet length + line length) / speed. Lengths in mm, speed in mm/min, all above 0.</summary>
    public static double InsideSeconds(double sheetLengthMm, double lineLengthMm, double speedMmPerMin) =>
        (Guard.Above(sheetLengthMm, 0, "The sheet length", "mm") + Guard.Above(lineLengthMm, 0, "The line length", "mm")) / Speed(speedMmPerMin) * 60;

    /// <summary>Time in s after which the next sheet of the same recipe may enter: (sheet length + gap) / speed. Gap 0 or more.</summary>
    public static double SpacingSeconds(double sheetLengthMm, double gapMm, double speedMmPerMin) =>
        (Guard.Above(sheetLengthMm, 0, "The sheet length", "mm") + Guard.AtLeast(gapMm, 0, "The gap", "mm")) / Speed(speedMmPerMin) * 60;

    internal static StageTime Time(WashoutSettings recipe, EquipmentFacts washer, SheetFacts sheet, LengthSystem units) =>
        (recipe.TransportMmPerMin, recipe.BatchSeconds) switch
        {
            ({ } speed, null) => Line(recipe, washer, sheet, speed, units),
            (null, { } batch) => StageTime.Of(
                Station.Washout, recipe.Handling, Guard.Above(batch, 0, "The washout time", "s"), $"fixed by the recipe, {washer.Name}",
                [new("Washout time", Durations.ForPeople(batch)), .. Common(recipe, units)],
                "time = the recipe's time", [new("Washout time", Durations.ForPeople(batch), "recipe")]),
            _ => throw new PlateRoomException("A washout recipe has either a transport speed (line) or a fixed time (batch washer), and this one has both or neither."),
        };

    private static StageTime Line(WashoutSettings recipe, EquipmentFacts washer, SheetFacts sheet, double speed, LengthSystem units)
    {
        if (washer.LineLengthMm is not { } length || washer.LineGapMm is not { } gap)
        {
            throw new PlateRoomException($"{washer.Name} has no line length or gap, so its washout time is unknown: enter both.");
        }

        return StageTime.Of(
            Station.Washout, recipe.Handling, InsideSeconds(sheet.LengthMm, length, speed),
            $"({units.Show(sheet.LengthMm)} sheet + {units.Show(length)} line) / {units.Speed(speed)}, {washer.Name}",
            [new("Transport speed", units.Speed(speed)), .. Common(recipe, units)],
            "time = (sheet length + line length) / transport speed",
            [
                new("Sheet length", units.Show(sheet.LengthMm), "sheet"),
                new("Line length", units.Show(length), washer.Name),
                new("Transport speed", units.Speed(speed), "recipe"),
            ],
            occupies: SpacingSeconds(sheet.LengthMm, gap, speed));
    }

    private static IEnumerable<Setting> Common(WashoutSettings recipe, LengthSystem units)
    {
        if (recipe.BrushHeightMm is { } height)
        {
            yield return new("Brush height", units.Show(height, 2));
        }

        yield return new("Temperature", $"{Numbers.ForPeople(recipe.TemperatureC)} °C");
    }

    private static double Speed(double mmPerMin) => Guard.Above(mmPerMin, 0, "The transport speed", "mm/min");
}
