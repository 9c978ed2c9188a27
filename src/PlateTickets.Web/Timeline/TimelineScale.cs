using PlateTickets.Tickets.Board;

namespace PlateTickets.Web.Timeline;

/// <summary>Where an instant lies on the drawing.</summary>
public sealed record TimelineScale(DateTime FromUtc, DateTime ToUtc, double PxPerHour)
{
    // A sheet forgotten in a machine, or a room booked for months, must not make the drawing endless.
    private static readonly TimeSpan LongestBack = TimeSpan.FromDays(2);
    private static readonly TimeSpan LongestAhead = TimeSpan.FromDays(21);

    public double Width => X(ToUtc);

    /// <summary>A scale for these stages; its ends are rounded, so that it stays the same while the plan moves a little.</summary>
    public static TimelineScale For(IEnumerable<TimelineStage> stages, DateTime nowUtc, double hoursAcross, double pxAcross)
    {
        var from = nowUtc - TimelineQueries.FinishedShownFor;
        var to = nowUtc.AddHours(hoursAcross);
        foreach (var stage in stages)
        {
            from = stage.StartUtc < from ? stage.StartUtc : from;
            to = stage.FinishUtc > to ? stage.FinishUtc : to;
        }

        from = from < nowUtc - LongestBack ? nowUtc - LongestBack : from;
        to = to > nowUtc + LongestAhead ? nowUtc + LongestAhead : to;
        return new TimelineScale(Down(from, TimeSpan.FromHours(6)), Down(to.AddHours(13), TimeSpan.FromHours(12)), pxAcross / hoursAcross);
    }

    public double X(DateTime utc) => (utc - FromUtc).TotalHours * PxPerHour;

    private static DateTime Down(DateTime utc, TimeSpan step) => new(utc.Ticks - (utc.Ticks % step.Ticks), DateTimeKind.Utc);
}
