namespace PlateTickets.Planning.Scheduling.Checking;

/// <summary>A planned stage beside what was asked for, with the instants that follow from its start.</summary>
internal sealed record CheckedStage(PlanSheet Sheet, PlanStage Stage, StageOption Option, PlannedStage Planned)
{
    public DateTime Start => Planned.StartUtc;

    public DateTime Finish => Planned.FinishUtc;

    /// <summary>The begin of the run, directly after loading: into a line, the entry.</summary>
    public DateTime RunStart => Start + Option.Load;

    public DateTime RunEnd => RunStart + Option.Run;
}
