using System.Security.Cryptography;

namespace PlateTickets.Tickets.Exchange.Sending;

/// <summary>How long to wait between tries.</summary>
public static class BackOff
{
    private const int JitterSteps = 1000;
    private const double MostJitter = 0.1;

    /// <summary>At once, and then ten tries over three days: the example of the Standard Webhooks specification 1.0.0, "Deliverability and reliability".</summary>
    public static IReadOnlyList<TimeSpan> ThreeDays { get; } =
    [
        TimeSpan.FromSeconds(5), TimeSpan.FromMinutes(5), TimeSpan.FromMinutes(30), TimeSpan.FromHours(2), TimeSpan.FromHours(5),
        TimeSpan.FromHours(10), TimeSpan.FromHours(14), TimeSpan.FromHours(20), TimeSpan.FromHours(24),
    ];

    /// <summary>The wait after so many tries, up to a tenth longer, so that a receiver that comes back is not met by all at once; null after the last try.</summary>
    /// <param name="waits">After the first try, the second, and so on.</param>
    /// <param name="attempts">Tries until now; 1 or more.</param>
    public static TimeSpan? After(IReadOnlyList<TimeSpan> waits, int attempts) => attempts > waits.Count
        ? null
        : waits[attempts - 1] * (1 + (MostJitter * RandomNumberGenerator.GetInt32(JitterSteps + 1) / JitterSteps));
}
