using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Quality;

public enum StageDecisionKind
{
    /// <summary>The stage is passed over.</summary>
    Skip = 1,

    /// <summary>The stage, and what was done after it, is done again.</summary>
    Repeat = 2,

    /// <summary>The sheet goes on though it lay longer than its recipe allows.</summary>
    GoOn = 3,
}

/// <summary>What a lead decided about a stage, and why. Added, never changed.</summary>
public sealed class StageDecision : IAudited
{
    public int Id { get; set; }

    public int SheetId { get; set; }

    public Sheet? Sheet { get; set; }

    public Station Station { get; set; }

    public StageDecisionKind Kind { get; set; }

    public required string Reason { get; set; }

    public required string By { get; set; }

    public DateTime AtUtc { get; set; }

    /// <summary>Of a repeat: the work that was done for nothing, in seconds.</summary>
    public int LostSeconds { get; set; }

    public string AuditKey => $"{Kind} {Station} of sheet {SheetId}";
}
