using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Stations;

/// <summary>A sheet that has lain longer after a stage than its recipe allows.</summary>
public sealed record LongWait(Station Since, TimeSpan Lain, TimeSpan Allowed)
{
    public string Say(string number) =>
        $"Since {Since.Title().ToLowerInvariant()} sheet {number} has lain {Durations.ForPeople(Lain.TotalSeconds)}; its recipe allows {Durations.ForPeople(Allowed.TotalSeconds)}.";
}

public static class WaitRules
{
    /// <summary>Has the sheet, which waits for its next stage, lain too long at an instant? Null when it has not, or has not begun.</summary>
    public static LongWait? Exceeded(Room room, Sheet sheet, DateTime atUtc)
    {
        if (sheet.Stages.Exists(s => s.State == StageState.Running) || sheet.Stages.Where(s => s.State == StageState.Done).MaxBy(s => s.Station) is not { FinishedUtc: { } finished } last)
        {
            return null;
        }

        var lain = atUtc - finished;
        return room.Revisions[sheet.RecipeRevisionId].Settings.HandlingAt(last.Station)?.LongestWaitAfterSeconds is { } limit && lain.TotalSeconds > limit
            ? new LongWait(last.Station, lain, TimeSpan.FromSeconds(limit))
            : null;
    }
}
