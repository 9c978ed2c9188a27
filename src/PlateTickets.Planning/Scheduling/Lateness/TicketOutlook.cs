namespace PlateTickets.Planning.Scheduling.Lateness;

/// <summary>When a ticket will really be finished, as far as simulation can tell.</summary>
/// <param name="TicketId">The caller's id.</param>
/// <param name="PlannedUtc">Its finish in the plan.</param>
/// <param name="LateChance">Probability that it comes late, above 0 and below 1.</param>
/// <param name="Finish">How its finish scatters.</param>
public sealed record TicketOutlook(int TicketId, DateTime PlannedUtc, double LateChance, FinishSpread Finish);

/// <summary>Instants (UTC) by which a ticket is finished with a probability of 50, 80 and 95 percent.</summary>
public sealed record FinishSpread(DateTime Half, DateTime Eighty, DateTime NinetyFive)
{
    /// <summary>The spread of a sample, sorted: the least values that so many of it do not exceed.</summary>
    internal static FinishSpread Of(ReadOnlySpan<int> sorted, Func<int, DateTime> instant) =>
        new(At(sorted, 0.5, instant), At(sorted, 0.8, instant), At(sorted, 0.95, instant));

    private static DateTime At(ReadOnlySpan<int> sorted, double share, Func<int, DateTime> instant) =>
        instant(sorted[Math.Clamp((int)Math.Ceiling(share * sorted.Length) - 1, 0, sorted.Length - 1)]);
}
