using PlateTickets.Process;

namespace PlateTickets.Tickets.Board;

/// <summary>
/// How many sheets a station should finish in one shift: what the plan says when the shift is first seen, kept, so that a shift that falls
/// behind is measured against what was meant and not against a plan that falls behind with it.
/// </summary>
public sealed class ShiftGoal
{
    public int Id { get; set; }

    public required string ShiftName { get; set; }

    public DateTime ShiftStartUtc { get; set; }

    public Station Station { get; set; }

    public int Sheets { get; set; }

    /// <summary>When the plan was asked.</summary>
    public DateTime TakenUtc { get; set; }
}
