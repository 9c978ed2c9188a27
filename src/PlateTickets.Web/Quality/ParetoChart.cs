using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;
using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Quality.Charts;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Quality;

/// <summary>Draws a Pareto chart lying on its side: long words stay level.</summary>
internal static class ParetoChart
{
    private const string Share = "share";
    private const double WidthOfLetter = 7.4;

    /// <summary>Bars from the top down, and the running share in percent.</summary>
    /// <param name="bars">The longest first; one or more.</param>
    /// <param name="title">What a bar's length means.</param>
    public static PlotModel Draw(IReadOnlyList<ParetoBar<RemakeSum>> bars, string title)
    {
        var names = new CategoryAxis { Position = AxisPosition.Left, StartPosition = 1, EndPosition = 0, GapWidth = 0.4 };
        names.Labels.AddRange(bars.Select(b => b.Item.Title));
        var weights = Charts.Axis(AxisPosition.Bottom, title);
        (weights.Minimum, weights.MaximumPadding) = (0, 0.05);
        var model = Charts.New(weights, names);
        names.MajorGridlineStyle = LineStyle.None;
        model.Axes.Add(new LinearAxis { Key = Share, Position = AxisPosition.Top, Title = "running share, %", Minimum = 0, Maximum = 105, MajorStep = 20, AxisTitleDistance = 8, TicklineColor = Charts.Frame });
        // The library cannot measure our typeface: room for the names is given, not computed.
        model.PlotMargins = new OxyThickness(30 + (WidthOfLetter * bars.Max(b => b.Item.Title.Length)), 56, 20, 56);
        var series = new BarSeries { FillColor = Charts.Bar, StrokeThickness = 0 };
        series.Items.AddRange(bars.Select(b => new BarItem(b.Weight)));
        model.Series.Add(series);
        var line = Charts.Curve("", bars.Select((b, i) => new DataPoint(100 * b.Cumulative, i)), Charts.Limit);
        (line.XAxisKey, line.MarkerType, line.MarkerSize, line.MarkerFill, line.MarkerStroke, line.MarkerStrokeThickness) = (Share, MarkerType.Square, 5, Charts.Ground, Charts.Limit, 2);
        model.Series.Add(line);
        return model;
    }
}
