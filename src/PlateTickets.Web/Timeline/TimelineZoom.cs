namespace PlateTickets.Web.Timeline;

/// <summary>How much time the window shows.</summary>
internal sealed record TimelineZoom(string Name, int Hours)
{
    /// <summary>From the closest to the widest.</summary>
    public static IReadOnlyList<TimelineZoom> Levels { get; } = [new("3 h", 3), new("8 h", 8), new("24 h", 24), new("3 days", 72), new("7 days", 168)];
}
