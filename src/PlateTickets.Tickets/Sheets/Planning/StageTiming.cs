using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Sheets.Planning;

/// <summary>The recipe's arithmetic for a sheet of ours on a machine of ours.</summary>
public static class StageTiming
{
    /// <param name="units">In which units it explains itself; the site's own when null.</param>
    public static StageTime Compute(Room room, Sheet sheet, Station station, Equipment equipment, DateTime nowUtc, LengthSystem? units = null) =>
        StageTimes.Compute(
            station, room.Revisions[sheet.RecipeRevisionId].Settings, room.Facts[equipment.Id], Facts(sheet), nowUtc, units ?? room.Site.Units);

    /// <summary>The time, or the sentence of why this machine cannot say one, such as a frame whose lamps were never read.</summary>
    public static (StageTime? Time, string? Refusal) TryCompute(
        Room room, Sheet sheet, Station station, Equipment equipment, DateTime nowUtc, LengthSystem? units = null)
    {
        try
        {
            return (Compute(room, sheet, station, equipment, nowUtc, units), null);
        }
        catch (PlateRoomException refused)
        {
            return (null, refused.Message);
        }
    }

    /// <summary>Writes time, rest, explanation and flags of a stage on a machine into the stage.</summary>
    public static void Write(Stage stage, Equipment equipment, StageTime time)
    {
        stage.EquipmentId = equipment.Id;
        stage.LoadSeconds = (int)Math.Round(time.LoadSeconds);
        stage.RunSeconds = (int)Math.Round(time.RunSeconds);
        stage.UnloadSeconds = (int)Math.Round(time.UnloadSeconds);
        stage.RunIsAttended = time.RunIsAttended;
        stage.OccupiesSeconds = (int)Math.Round(time.OccupiesRunSeconds);
        stage.RestAfterSeconds = (int)Math.Round(time.RestAfterSeconds);
        stage.Explanation = time.Explanation;
        stage.Flags = string.Join('\n', time.Flags);
    }

    private static SheetFacts Facts(Sheet sheet) => new(sheet.WidthUm / 1000.0, sheet.LengthUm / 1000.0, sheet.AxialExtentUm / 1000.0, sheet.PlateCount);
}
