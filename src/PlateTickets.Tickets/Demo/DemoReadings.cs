using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Quality;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Demo;

/// <summary>
/// Invented readings of the demo's past. They tell two small stories: the back lamps of the second frame weakened between two radiometer
/// readings, so that its floors became thin; and a new lot of the first material was a little quicker.
/// </summary>
internal sealed class DemoReadings(Room room, DateTime nowUtc, Random random)
{
    private const int LotDays = 18;

    /// <summary>The lot that a material was taken from so many days ago.</summary>
    public static string Lot(int materialId, double daysAgo) => $"L-{1900 + (100 * materialId) - (7 * (int)(daysAgo / LotDays))}";

    public IEnumerable<StageReading> Of(Sheet sheet)
    {
        var material = room.Materials[sheet.MaterialId];
        var back = sheet.Stages.Find(s => s.Station == Station.BackExposure)!;
        var daysAgo = (nowUtc - back.FinishedUtc!.Value).TotalDays;
        var recipe = room.Revisions[sheet.RecipeRevisionId].Settings;
        var weak = room.EquipmentById(back.EquipmentId)!.Slug == "frame-2" && daysAgo is > 8.2 and < 17 ? -0.04 : 0;
        var quick = sheet.MaterialId == 1 && daysAgo < LotDays ? 0.012 : 0;
        var floor = recipe.BackExposure.FloorMm + weak + quick + Scatter(0.012);
        yield return Take(sheet, Station.BackExposure, ReadingKind.Floor, floor);
        yield return Take(sheet, Station.Washout, ReadingKind.Relief, (material.ThicknessUm / 1000.0) - floor + Scatter(0.008));
        yield return Take(sheet, Station.Cutting, ReadingKind.Thickness, (material.ThicknessUm / 1000.0) + Scatter(0.0032));
    }

    private StageReading Take(Sheet sheet, Station station, ReadingKind kind, double mm)
    {
        var stage = sheet.Stages.Find(s => s.Station == station)!;
        var material = room.Materials[sheet.MaterialId];
        var reading = ReadingRules.Number(kind, mm, room.Revisions[sheet.RecipeRevisionId].Settings, material, LengthSystem.Metric)
            .Of(sheet, station, stage.EquipmentId, stage.FinishedUtc!.Value, stage.FinishedBy);
        reading.Sheet = sheet;
        if (reading.State == ReadingState.Open)
        {
            (reading.State, reading.Reason, reading.DecidedBy, reading.DecidedUtc) = (ReadingState.Accepted, "measured again at the edge: usable", "Demo lead", reading.AtUtc.AddMinutes(9));
        }

        return reading;
    }

    // Box and Muller's normal numbers.
    private double Scatter(double deviation) => deviation * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
