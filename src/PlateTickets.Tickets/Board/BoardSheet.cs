using PlateTickets.Process;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Board;

/// <summary>A ticket as a sheet on the board names it.</summary>
public sealed record BoardTicket(int Id, string Number, string Customer, string Title, string Press, DateTime DueUtc, bool IsRush = false);

/// <summary>One pass of a sheet through a station: when it is planned, or when it was.</summary>
/// <param name="Station">Where.</param>
/// <param name="State">Whether it waits, runs or is done.</param>
/// <param name="EquipmentId">On which machine; null before the first plan.</param>
/// <param name="StartUtc">Begin, planned or real.</param>
/// <param name="FinishUtc">End, planned or real.</param>
/// <param name="FreeUtc">From then on the machine takes the next sheet: in a line sooner than the end.</param>
/// <param name="IsWork">False where the stage was passed over.</param>
public readonly record struct BoardPass(
    Station Station, StageState State, int? EquipmentId, DateTime? StartUtc, DateTime? FinishUtc, DateTime? FreeUtc, bool IsWork = true);

/// <summary>The stage that a sheet is in, or waits for.</summary>
public sealed record BoardStage(
    int Id, Station Station, StageState State, int? EquipmentId, DateTime? PlannedStartUtc, DateTime? PlannedFinishUtc, DateTime? DueByUtc,
    DateTime? StartedUtc, int LoadSeconds, int RunSeconds, int UnloadSeconds, bool RunIsAttended = false, int? Drawer = null)
{
    /// <summary>When the run of a started stage is over.</summary>
    public DateTime? RunEndsUtc => StartedUtc?.AddSeconds(LoadSeconds + RunSeconds);
}

/// <summary>A sheet as the board and the station lists show it.</summary>
public sealed record BoardSheet
{
    public required int Id { get; init; }

    public required string Number { get; init; }

    public required SheetState State { get; init; }

    public required string Material { get; init; }

    public required IReadOnlyList<BoardTicket> Tickets { get; init; }

    public required IReadOnlyList<string> Colours { get; init; }

    public required int Plates { get; init; }

    public required int RecipeRevisionId { get; init; }

    /// <summary>The current stage; null when the sheet is done.</summary>
    public required BoardStage? Stage { get; init; }

    /// <summary>Earliest start of the current stage: the rest after the one before.</summary>
    public required DateTime? ReadyUtc { get; init; }

    /// <summary>All its stages, in order.</summary>
    public IReadOnlyList<BoardPass> Passes { get; init; } = [];

    /// <summary>Planned finish of the last stage.</summary>
    public required DateTime? PlannedDoneUtc { get; init; }

    /// <summary>Due-by of the last stage.</summary>
    public required DateTime? LastDueByUtc { get; init; }

    public required DateTime? DoneUtc { get; init; }

    public required string HoldReason { get; init; }

    /// <summary>Probability that one of its tickets comes late, from the newest simulated plan; null before the first.</summary>
    public double? LateChance { get; init; }

    /// <summary>Why a ticket of it comes late, in words; empty when none does.</summary>
    public string Why { get; init; } = "";

    public bool IsOpen => State is SheetState.Waiting or SheetState.Running or SheetState.OnHold;

    /// <summary>The earliest due time of its tickets.</summary>
    public DateTime DueUtc => Tickets.Count == 0 ? DateTime.MaxValue : Tickets.Min(t => t.DueUtc);

    /// <summary>Last due-by minus planned finish, or null before the first plan.</summary>
    public TimeSpan? Slack => LastDueByUtc - PlannedDoneUtc;
}

public enum Lateness
{
    OnTime = 1,
    AtRisk = 2,
    Late = 3,
}

/// <summary>Says whether something comes late.</summary>
public static class LatenessRules
{
    /// <summary>From this probability of being late on it is a risk: one in five. A judgement of this project, from no source.</summary>
    public const double RiskFrom = 0.2;

    /// <summary>Before the first simulation: a slack under this much is a risk, as one remake of a stage uses it up. Common practice.</summary>
    public static readonly TimeSpan RiskBelow = TimeSpan.FromMinutes(60);

    /// <param name="dueUtc">When it is due.</param>
    /// <param name="plannedDoneUtc">Its planned finish; null before the first plan.</param>
    /// <param name="lastDueByUtc">Due-by of the last stage; null before the first plan.</param>
    /// <param name="nowUtc">Now.</param>
    /// <param name="lateChance">Probability of being late; null where no plan was simulated yet.</param>
    public static Lateness Of(DateTime dueUtc, DateTime? plannedDoneUtc, DateTime? lastDueByUtc, DateTime nowUtc, double? lateChance = null)
    {
        if (plannedDoneUtc > dueUtc || dueUtc < nowUtc)
        {
            return Lateness.Late;
        }

        var atRisk = lateChance is { } chance ? chance >= RiskFrom : (lastDueByUtc ?? dueUtc) - plannedDoneUtc < RiskBelow;
        return atRisk ? Lateness.AtRisk : Lateness.OnTime;
    }

    /// <summary>Of a whole ticket.</summary>
    public static Lateness Of(TicketView view, DateTime nowUtc, double? lateChance = null) =>
        view.Ticket.DoneUtc is { } done
            ? done > view.Order.DueUtc ? Lateness.Late : Lateness.OnTime
            : Of(view.Order.DueUtc, view.PlannedDoneUtc, view.LastDueByUtc, nowUtc, lateChance);

    /// <summary>Of a line of the order list.</summary>
    public static Lateness Of(OrderLine line, DateTime nowUtc, double? lateChance = null) =>
        line.DoneUtc is { } done
            ? done > line.DueUtc ? Lateness.Late : Lateness.OnTime
            : Of(line.DueUtc, line.PlannedDoneUtc, line.LastDueByUtc, nowUtc, lateChance);

    /// <summary>Of a sheet on the board.</summary>
    public static Lateness Of(BoardSheet sheet, DateTime nowUtc) =>
        sheet.DoneUtc is { } done
            ? done > sheet.DueUtc ? Lateness.Late : Lateness.OnTime
            : Of(sheet.DueUtc, sheet.PlannedDoneUtc, sheet.LastDueByUtc, nowUtc, sheet.LateChance);
}
