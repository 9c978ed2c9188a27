namespace PlateTickets.Planning.Scheduling;

/// <summary>A sheet during the dispatch: its next stage, since when that may start, and the best place found for it.</summary>
internal sealed class SheetQueue
{
    private readonly long[] _dueBy;
    private readonly long _now;
    private int _next;

    public SheetQueue(PlanSheet sheet, long[] dueBy, long now)
    {
        Sheet = sheet;
        _dueBy = dueBy;
        _now = now;
        Ready = Math.Max(now, sheet.ReadyUtc.Ticks);
        Urgency = Weigh();
    }

    public PlanSheet Sheet { get; }

    public PlanStage Stage => Sheet.Stages[_next];

    public long DueBy => _dueBy[_next];

    public bool Done => _next == Sheet.Stages.Count;

    public long Ready { get; private set; }

    /// <summary>The smaller, the more urgent.</summary>
    public double Urgency { get; private set; }

    public int Machine { get; set; } = -1;

    public Work Work { get; set; }

    public Placement Best { get; set; }

    public void Advance()
    {
        Ready = Math.Max(_now, Best.Finish + Stage.LeastWaitAfter.Ticks);
        _next++;
        Urgency = Done ? 0 : Weigh();
    }

    // Dividing what is left makes a heavy sheet more urgent; once it is late, only multiplying does.
    private double Weigh()
    {
        var left = DueBy - _now;
        return left > 0 ? left / Sheet.Weight : left * Sheet.Weight;
    }
}
