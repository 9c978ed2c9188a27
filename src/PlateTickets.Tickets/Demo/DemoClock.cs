namespace PlateTickets.Tickets.Demo;

/// <summary>A clock that stands where the demo's past is being played.</summary>
internal sealed class DemoClock : TimeProvider
{
    public DateTime NowUtc { get; set; }

    public override DateTimeOffset GetUtcNow() => new(NowUtc, TimeSpan.Zero);
}
