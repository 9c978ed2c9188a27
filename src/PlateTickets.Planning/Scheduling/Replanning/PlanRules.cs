namespace PlateTickets.Planning.Scheduling.Replanning;

/// <summary>When a new plan takes the place of the one that people already see.</summary>
/// <param name="HoldFor">What is planned to start within this time keeps its machine and its place.</param>
/// <param name="LeastGain">The share of the cost that a new plan must save, 0 to 1.</param>
public sealed record PlanRules(TimeSpan HoldFor, double LeastGain)
{
    // A minute of one ticket of usual weight: less is not worth a changed list at a station.
    private const double LeastSeconds = 60;

    /// <summary>Ten minutes and one percent: a judgement of this project, from no source.</summary>
    public static readonly PlanRules Usual = new(TimeSpan.FromMinutes(10), 0.01);

    /// <summary>
    /// Is the one plan so much better than the other that it is worth changing? Both tardiness and, where that is the
    /// same, finish times must differ by the least gain.
    /// </summary>
    public bool IsWorth(PlanCost better, PlanCost than)
    {
        var gain = than.Main - better.Main;
        return gain > Math.Max(LeastSeconds, LeastGain * than.Main) || (gain >= 0 && than.Then - better.Then > Math.Max(LeastSeconds, LeastGain * than.Then));
    }
}
