using PlateTickets.Process;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Board;

/// <summary>A stage as a bar on the timeline: on which machine, from when to when, and what a person does at either end.</summary>
public sealed record TimelineStage(
    int Id, int SheetId, Station Station, StageState State, int EquipmentId, DateTime StartUtc, DateTime FinishUtc, DateTime? DueByUtc,
    int LoadSeconds, int RunSeconds, int UnloadSeconds, bool RunIsAttended)
{
    /// <summary>Due-by minus finish; null without a due-by.</summary>
    public TimeSpan? Slack => DueByUtc - FinishUtc;
}
