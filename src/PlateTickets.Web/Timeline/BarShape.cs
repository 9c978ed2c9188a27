using System.Globalization;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Web.Timeline;

/// <summary>
/// The outline of a bar. The run is the high part; load and unload are the low ends; where the sheet waits in the machine for
/// somebody to take it out there is only a line. So the parts differ without a colour.
/// </summary>
public sealed record BarShape(double X, double Width, int Top, double RunX, double RunWidth, string Run, string Hands, string Wait, string Attended)
{
    public const int LaneHeight = 31;
    public const int Height = 22;
    private const int LowInset = 5;

    // Narrower than this the parts cannot be told apart, and the bar is one block.
    private const double LeastForParts = 7;
    private const double LeastWidth = 2;

    public static BarShape Of(TimelineStage stage, int lane, TimelineScale scale)
    {
        var x = Math.Max(0, scale.X(stage.StartUtc));
        var end = Math.Min(scale.Width, scale.X(stage.FinishUtc));
        var width = Math.Max(LeastWidth, end - x);
        var top = (lane * LaneHeight) + 9;
        if (width < LeastForParts || scale.X(stage.StartUtc) < 0)
        {
            return new(x, width, top, x, width, Box(x, top, width, Height), "", "", "");
        }

        var (loadEnd, runEnd, unloadStart) = Parts(stage);
        var (x1, x2, x3) = (scale.X(loadEnd), scale.X(runEnd), scale.X(unloadStart));
        var low = Height - (2 * LowInset);
        return new(
            x, width, top, x1, x2 - x1,
            Box(x1, top, x2 - x1, Height),
            Box(x, top + LowInset, x1 - x, low) + Box(x3, top + LowInset, end - x3, low),
            Box(x2, top + (Height / 2) - 1, x3 - x2, 2),
            stage.RunIsAttended ? Box(x1, top + Height - 4, x2 - x1, 4) : "");
    }

    /// <summary>Square for late, diamond for at risk, nothing in time; above the bar, where a narrow bar has room for it too.</summary>
    public string Mark(Lateness lateness) => lateness switch
    {
        Lateness.Late => Box(X, Top - 7, 8, 8),
        Lateness.AtRisk => string.Create(CultureInfo.InvariantCulture, $"M{X + 4:0.#} {Top - 8}l4.5 4.5l-4.5 4.5l-4.5 -4.5z"),
        _ => "",
    };

    private static (DateTime LoadEnd, DateTime RunEnd, DateTime UnloadStart) Parts(TimelineStage stage)
    {
        var whole = (stage.FinishUtc - stage.StartUtc).TotalSeconds;
        var known = stage.LoadSeconds + stage.RunSeconds + stage.UnloadSeconds;
        // A stage that was quicker than its recipe keeps the proportions.
        var scale = known > whole && known > 0 ? whole / known : 1;
        // What was finished later than planned waited, unless a person worked all the time.
        var wait = stage.RunIsAttended || (stage.State == StageState.Done && known == 0) ? 0 : Math.Max(0, whole - known);
        var loadEnd = stage.StartUtc.AddSeconds(stage.LoadSeconds * scale);
        var unloadStart = stage.FinishUtc.AddSeconds(-stage.UnloadSeconds * scale);
        return (loadEnd, unloadStart.AddSeconds(-wait), unloadStart);
    }

    private static string Box(double x, int y, double width, int height) =>
        width <= 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"M{x:0.#} {y}h{width:0.#}v{height}h-{width:0.#}z");
}
