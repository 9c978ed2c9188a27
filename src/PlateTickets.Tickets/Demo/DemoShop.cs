using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Demo;

/// <summary>Sends sheets of the demo's past through its machines, one after the other: first come, first served, in the shifts.</summary>
internal sealed class DemoShop(Room room, DateTime fromUtc, DateTime toUtc, DateTime nowUtc, Random random)
{
    private static readonly string[] Operators = ["Ada", "Bruno", "Chika", "Dario", "Esin"];

    private readonly WorkingTime _working = room.WorkingBetween(fromUtc, toUtc);
    private readonly Dictionary<int, DateTime[]> _free = room.Equipment.ToDictionary(e => e.Id, e => Enumerable.Repeat(fromUtc, e.Slots).ToArray());

    /// <summary>When somebody is there.</summary>
    public WorkingTime Working => _working;

    /// <summary>Writes start and finish into all stages of a sheet; returns when it is done.</summary>
    public DateTime Pass(Sheet sheet, DateTime readyUtc)
    {
        var recipe = room.Revisions[sheet.RecipeRevisionId].Settings;
        foreach (var stage in sheet.Stages.OrderBy(s => s.Station))
        {
            var machine = room.For(stage.Station, recipe).MinBy(e => _free[e.Id].Min())!;
            // Long ago a reading was as fresh as today's is now: the newest one explains the time.
            StageTiming.Write(stage, machine, StageTiming.Compute(room, sheet, stage.Station, machine, nowUtc));
            stage.Flags = "";
            var slot = Array.IndexOf(_free[machine.Id], _free[machine.Id].Min());
            var start = Start(stage, sheet, Later(readyUtc, _free[machine.Id][slot]));
            Work(stage, start);
            _free[machine.Id][slot] = machine.Kind == EquipmentKind.Line ? start.AddSeconds(stage.LoadSeconds + stage.OccupiesSeconds) : stage.FinishedUtc!.Value;
            readyUtc = stage.FinishedUtc!.Value.AddSeconds(stage.RestAfterSeconds);
        }

        (sheet.State, sheet.CurrentStation, sheet.DoneUtc) = (SheetState.Done, null, readyUtc);
        return readyUtc;
    }

    // What is washed out must be dried before the night: such a sheet waits for the morning instead.
    private DateTime Start(Stage stage, Sheet sheet, DateTime earliest)
    {
        var attended = TimeSpan.FromSeconds(stage.LoadSeconds + (stage.RunIsAttended ? stage.RunSeconds + stage.UnloadSeconds : 0));
        var start = _working.EarliestStart(earliest, attended)!.Value;
        var drying = room.Revisions[sheet.RecipeRevisionId].Settings.Drying;
        for (var tries = 0; stage.Station == Station.Washout && drying is not null && tries < 3; tries++)
        {
            var dry = start.AddSeconds(stage.TotalSeconds + drying.Handling.LoadSeconds + drying.Seconds);
            if (_working.IsWorking(dry))
            {
                break;
            }

            start = _working.EarliestStart(_working.EarliestStart(dry, attended)!.Value, attended)!.Value;
        }

        return start;
    }

    private void Work(Stage stage, DateTime start)
    {
        // Nobody works to the second, and nobody stands waiting at the machine.
        var dawdle = random.NextDouble() * random.NextDouble() * (30 + (0.2 * stage.RunSeconds));
        var over = start.AddSeconds(Math.Floor(stage.LoadSeconds + stage.RunSeconds + dawdle));
        var finish = stage.RunIsAttended ? over.AddSeconds(stage.UnloadSeconds) : _working.EarliestStart(over, TimeSpan.FromSeconds(stage.UnloadSeconds))!.Value.AddSeconds(stage.UnloadSeconds);
        (stage.State, stage.StartedUtc, stage.FinishedUtc) = (StageState.Done, start, finish);
        (stage.PlannedStartUtc, stage.PlannedFinishUtc) = (start, start.AddSeconds(stage.TotalSeconds));
        stage.StartedBy = Operators[(stage.EquipmentId!.Value + start.DayOfYear) % Operators.Length];
        stage.FinishedBy = Operators[(stage.EquipmentId.Value + finish.DayOfYear) % Operators.Length];
    }

    private static DateTime Later(DateTime a, DateTime b) => a > b ? a : b;
}
