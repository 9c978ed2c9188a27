using System.Globalization;
using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using OxyPlot.Series;
using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Quality.Charts;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Quality;

/// <summary>Draws control charts: points at equal distances in the order of time, as the rules count them.</summary>
internal static class ControlCharts
{
    /// <summary>Values or averages with their limits and those of the recipe.</summary>
    public static PlotModel Place(QualityChart chart, Func<double, double> unit, string title, TimeZoneInfo zone)
    {
        var signals = chart.Signals.Where(s => s.Rule != ControlRule.SpreadOutside).Select(s => Index(chart, s.At)).ToHashSet();
        return Draw(chart.Control!.Place, 0, unit, title, signals, chart, zone, [chart.Limits.From, chart.Limits.To]);
    }

    /// <summary>Ranges, or moving ranges: those begin at the second value.</summary>
    public static PlotModel Spread(QualityChart chart, Func<double, double> unit, string title, TimeZoneInfo zone)
    {
        var signals = chart.Signals.Where(s => s.Rule == ControlRule.SpreadOutside).Select(s => Index(chart, s.At)).ToHashSet();
        return Draw(chart.Control!.Spread, chart.Groups.Count - chart.Control.Spread.Points.Count, unit, title, signals, chart, zone, []);
    }

    private static int Index(QualityChart chart, QualityGroup group)
    {
        for (var i = 0; i < chart.Groups.Count; i++)
        {
            if (ReferenceEquals(chart.Groups[i], group))
            {
                return i;
            }
        }

        return -1;
    }

    private static PlotModel Draw(ControlTrack track, int first, Func<double, double> unit, string title, HashSet<int> signals, QualityChart chart, TimeZoneInfo zone, double?[] recipe)
    {
        var across = new LinearAxis
        {
            Position = AxisPosition.Bottom,
            Minimum = -0.5,
            Maximum = chart.Groups.Count - 0.5,
            MinimumMajorStep = 1,
            MinimumMinorStep = 1,
            LabelFormatter = at => Day(chart, at, zone),
        };
        var up = Charts.Axis(AxisPosition.Left, title);
        var model = Charts.New(across, up);
        // The library cannot measure our typeface: room for the axis is given, not computed.
        (up.AxisTitleDistance, model.PlotMargins) = (26, new OxyThickness(84, 8, 16, 34));
        var points = track.Points.Select((p, i) => (X: (double)i + first, p.Value, p.Lower, p.Upper)).ToList();
        var levels = points.SelectMany(p => new[] { p.Value, p.Lower, p.Upper }).Concat(recipe.OfType<double>()).Select(unit).ToList();
        var margin = Math.Max((levels.Max() - levels.Min()) * 0.08, 1e-9);
        (up.Minimum, up.Maximum) = (levels.Min() - margin, levels.Max() + margin);
        foreach (var limit in recipe.OfType<double>())
        {
            model.Annotations.Add(Level(unit(limit), Charts.Wanted, LineStyle.Dot));
        }

        model.Annotations.Add(Level(unit(track.Centre), Charts.Primary, LineStyle.Solid));
        foreach (var of in new Func<(double X, double Value, double Lower, double Upper), double>[] { p => p.Lower, p => p.Upper })
        {
            var steps = new StairStepSeries { Color = Charts.Limit, StrokeThickness = 2, LineStyle = LineStyle.Dash, VerticalStrokeThickness = 1 };
            steps.Points.AddRange(points.Select(p => new DataPoint(p.X - 0.5, unit(of(p)))).Append(new DataPoint(points[^1].X + 0.5, unit(of(points[^1])))));
            model.Series.Add(steps);
        }

        var line = Charts.Curve("", points.Select(p => new DataPoint(p.X, unit(p.Value))), Charts.Ink);
        line.StrokeThickness = 1;
        model.Series.Add(line);
        var dots = Charts.Points("", points.Where(p => !signals.Contains((int)p.X)).Select(p => (p.X, unit(p.Value))));
        dots.MarkerSize = points.Count > 150 ? 2 : points.Count > 60 ? 3 : 4.5;
        dots.MarkerStrokeThickness = points.Count > 60 ? 1 : 2;
        model.Series.Add(dots);
        var marked = Charts.Points("", points.Where(p => signals.Contains((int)p.X)).Select(p => (p.X, unit(p.Value))));
        (marked.MarkerType, marked.MarkerSize, marked.MarkerFill, marked.MarkerStroke) = (MarkerType.Diamond, 7, Charts.Signal, Charts.Signal);
        model.Series.Add(marked);
        return model;
    }

    private static LineAnnotation Level(double y, OxyColor color, LineStyle style) => new()
    {
        Type = LineAnnotationType.Horizontal,
        Y = y,
        Color = color,
        LineStyle = style,
        StrokeThickness = 2,
    };

    private static string Day(QualityChart chart, double at, TimeZoneInfo zone) => at == Math.Floor(at) && at >= 0 && at < chart.Groups.Count
        ? SiteClock.Local(chart.Groups[(int)at].AtUtc, zone).ToString("d MMM", CultureInfo.GetCultureInfo("en-GB"))
        : "";
}
