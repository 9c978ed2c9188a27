using System.Collections.Immutable;
namespace PlateTickets.Planning.Scheduling;

/// <summary>How a machine takes sheets.</summary>
public enum EquipmentKind
{
    /// <summary>One sheet at a time.</summary>
    Single = 1,

    /// <summary>A line: the next sheet enters while the last one is still inside; a change of recipe waits until the line is empty.</summary>
    Line = 2,

    /// <summary>Several slots that take one sheet each.</summary>
    Slots = 3,
}

/// <summary>A machine of the room. One machine may serve several stations.</summary>
/// <param name="Id">The caller's id.</param>
/// <param name="Kind">How it takes sheets.</param>
/// <param name="Slots">How many sheets at once; 1 for a single machine and for a line.</param>
/// <param name="Changeover">For a line: attended time between two recipes, after it ran empty.</param>
public sealed record PlanEquipment(int Id, EquipmentKind Kind, int Slots, TimeSpan Changeover);

/// <summary>The time of a stage on one machine that could do it.</summary>
/// <param name="EquipmentId">The machine.</param>
/// <param name="Load">Attended, inside working time.</param>
/// <param name="Run">Unattended, may pass breaks and nights.</param>
/// <param name="Unload">Attended, inside working time.</param>
/// <param name="EntrySpacing">For a line: how long after this sheet's run began the next one may enter. Elsewhere ignored.</param>
public sealed record StageOption(int EquipmentId, TimeSpan Load, TimeSpan Run, TimeSpan Unload, TimeSpan EntrySpacing);

/// <summary>One stage of a sheet that is not finished yet.</summary>
/// <param name="Id">The caller's id.</param>
/// <param name="Options">The machines that could do it; at least one.</param>
/// <param name="LeastWaitAfter">Least time between this stage's finish and the next one's start.</param>
/// <param name="Running">When set, the stage has begun: it is frozen on its machine.</param>
public sealed record PlanStage(int Id, IReadOnlyList<StageOption> Options, TimeSpan LeastWaitAfter, RunningStage? Running = null)
{
    /// <summary>Longest time between this stage's finish and the next one's start; null for no limit.</summary>
    public TimeSpan? LongestWaitAfter { get; init; }

    /// <summary>How the real times of this stage scatter about the computed ones; null where they are taken as exact.</summary>
    public TimeSpread? Spread { get; init; }
}

/// <summary>
/// Real time divided by computed time, as a lognormal distribution: usual for times of work, which cannot fall below nothing
/// and have a long tail (common practice).
/// </summary>
/// <param name="LogMean">Mean of the natural logarithm of the ratio; 0 when the computed times are right in the middle.</param>
/// <param name="LogDeviation">Its standard deviation, 0 or more: 0.1 is about ten percent up or down.</param>
public readonly record struct TimeSpread(double LogMean, double LogDeviation);

/// <summary>A stage that has begun: on which machine and when (UTC).</summary>
public sealed record RunningStage(int EquipmentId, DateTime StartedUtc);

/// <summary>A sheet and the stages it still has before it, in order.</summary>
/// <param name="Id">The caller's id.</param>
/// <param name="ReadyUtc">Earliest start of the first stage (UTC), such as the finish of the last done stage plus its rest.</param>
/// <param name="DueUtc">When its earliest ticket is due (UTC).</param>
/// <param name="Weight">Importance, above 0; 1 is usual.</param>
/// <param name="RecipeId">Sheets of the same recipe follow each other in a line without changeover.</param>
/// <param name="Stages">The unfinished stages, in order.</param>
public sealed record PlanSheet(int Id, DateTime ReadyUtc, DateTime DueUtc, double Weight, int RecipeId, IReadOnlyList<PlanStage> Stages);

/// <summary>A set of sheets that is done with its last one.</summary>
/// <param name="Id">The caller's id.</param>
/// <param name="DueUtc">When it is due (UTC).</param>
/// <param name="Weight">Importance, above 0; 1 is usual.</param>
/// <param name="SheetIds">Its sheets. A sheet may belong to several tickets.</param>
public sealed record PlanTicket(int Id, DateTime DueUtc, double Weight, IReadOnlyList<int> SheetIds);

/// <summary>A machine that takes nothing and runs nothing from one instant to another (UTC).</summary>
public sealed record Downtime(int EquipmentId, DateTime FromUtc, DateTime ToUtc);

/// <summary>What a plan is for.</summary>
public enum PlanGoal
{
    /// <summary>Weighted tardiness of tickets, then their weighted finish times, then changeovers.</summary>
    Tardiness = 0,

    /// <summary>Everything finished as early as can be: for comparison with published shops.</summary>
    Makespan = 1,
}

/// <summary>Everything the planner needs, and nothing else. Times are kept to the whole second.</summary>
public sealed record PlanRequest(
    DateTime NowUtc, IReadOnlyList<PlanEquipment> Equipment, IReadOnlyList<PlanSheet> Sheets, WorkingTime Working)
{
    public PlanGoal Goal { get; init; }

    /// <summary>The sets. When there are none, each sheet is its own with its own due time and weight.</summary>
    public IReadOnlyList<PlanTicket> Tickets { get; init; } = [];

    /// <summary>
    /// When each operator is there. Every loading and unloading takes one of them from its start to its end. Null when there
    /// are always enough people in <see cref="Working"/>, which is the time of all of them together.
    /// </summary>
    public IReadOnlyList<WorkingTime>? Operators { get; init; }

    public IReadOnlyList<Downtime> Downtime { get; init; } = [];
}

/// <summary>What the plan expects of a stage (UTC). <paramref name="DueByUtc"/> is the latest finish that still keeps the due time.</summary>
public sealed record PlannedStage(int SheetId, int StageId, int EquipmentId, DateTime StartUtc, DateTime FinishUtc, DateTime DueByUtc)
{
    /// <summary>Due-by minus planned finish; negative when the stage comes too late.</summary>
    public TimeSpan Slack => DueByUtc - FinishUtc;

    /// <summary>Which of the machine's slots, from 0.</summary>
    public int Slot { get; init; }
}

/// <summary>The plan: every stage of the request once.</summary>
public sealed record Plan(IReadOnlyList<PlannedStage> Stages)
{
    /// <summary>What it costs by the request's goal.</summary>
    public PlanCost Cost { get; init; }

    /// <summary>
    /// The stages' ids in the order in which the planner placed them, from which it can make the same plan again. Without it
    /// the starts are taken for the order, which comes near.
    /// </summary>
    public IReadOnlyList<int> Order { get; init; } = [];

    /// <summary>
    /// The ids of stages whose machine followed from the order, as the one of several that finished first. Held to that machine they could come out at
    /// other times: how long a stage is put off for the next one depends on which machines the next one may take.
    /// </summary>
    public IReadOnlySet<int> OnAnyMachine { get; init; } = ImmutableHashSet<int>.Empty;
}

/// <summary>What a plan costs, compared in this order.</summary>
/// <param name="Main">Weighted tardiness in s (and ten times what sheets lie too long), or the makespan in s.</param>
/// <param name="Then">Weighted time from now to each ticket's finish in s.</param>
/// <param name="Changeovers">How many there are.</param>
public readonly record struct PlanCost(double Main, double Then, int Changeovers) : IComparable<PlanCost>
{
    public static bool operator <(PlanCost a, PlanCost b) => a.CompareTo(b) < 0;

    public static bool operator >(PlanCost a, PlanCost b) => a.CompareTo(b) > 0;

    public static bool operator <=(PlanCost a, PlanCost b) => a.CompareTo(b) <= 0;

    public static bool operator >=(PlanCost a, PlanCost b) => a.CompareTo(b) >= 0;

    public int CompareTo(PlanCost other) => (Main, Then, Changeovers).CompareTo((other.Main, other.Then, other.Changeovers));
}
