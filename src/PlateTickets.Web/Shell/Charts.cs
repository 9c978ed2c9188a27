using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace PlateTickets.Web.Shell;

/// <summary>The look of all charts. A colour here only stands for its name in css/look.css: the drawing says the name, and so follows the look of the page.</summary>
internal static class Charts
{
    public static readonly OxyColor Ink = OxyColor.FromRgb(1, 0, 0);
    public static readonly OxyColor Ground = OxyColor.FromRgb(2, 0, 0);
    public static readonly OxyColor Line = OxyColor.FromRgb(3, 0, 0);
    public static readonly OxyColor Frame = OxyColor.FromRgb(4, 0, 0);
    public static readonly OxyColor Primary = OxyColor.FromRgb(5, 0, 0);
    public static readonly OxyColor Bar = OxyColor.FromRgb(6, 0, 0);
    public static readonly OxyColor Limit = OxyColor.FromRgb(7, 0, 0);
    public static readonly OxyColor Wanted = OxyColor.FromRgb(8, 0, 0);
    public static readonly OxyColor Signal = OxyColor.FromRgb(9, 0, 0);
    public static readonly OxyColor Band = OxyColor.FromAColor(60, Primary);

    private static readonly (OxyColor Colour, string Name)[] Names =
    [
        (Ink, "ink"), (Ground, "surface"), (Line, "line"), (Frame, "faint"), (Primary, "primary"), (Bar, "chart-bar"), (Limit, "risk"), (Wanted, "chart-limit"), (Signal, "late"),
    ];

    public static PlotModel New(Axis across, Axis up)
    {
        var model = new PlotModel
        {
            DefaultFont = "Atkinson Hyperlegible Next",
            DefaultFontSize = 14,
            TextColor = Ink,
            PlotAreaBorderColor = Frame,
            Background = Ground,
        };
        foreach (var axis in new[] { across, up })
        {
            axis.MajorGridlineStyle = LineStyle.Solid;
            axis.MajorGridlineColor = Line;
            axis.TicklineColor = Frame;
            axis.AxisTitleDistance = 8;
            model.Axes.Add(axis);
        }

        return model;
    }

    public static LinearAxis Axis(AxisPosition position, string title) => new() { Position = position, Title = title, MinimumPadding = 0.06, MaximumPadding = 0.06 };

    public static LineSeries Curve(string title, IEnumerable<DataPoint> points, OxyColor? color = null, LineStyle style = LineStyle.Solid)
    {
        var line = new LineSeries { Title = title, Color = color ?? Primary, StrokeThickness = 2.5, LineStyle = style };
        line.Points.AddRange(points);
        return line;
    }

    public static AreaSeries Area(string title, IEnumerable<(double X, double Low, double High)> band)
    {
        var area = new AreaSeries { Title = title, Fill = Band, Color = OxyColors.Transparent, Color2 = OxyColors.Transparent, StrokeThickness = 0 };
        foreach (var (x, low, high) in band)
        {
            area.Points.Add(new DataPoint(x, low));
            area.Points2.Add(new DataPoint(x, high));
        }

        return area;
    }

    public static ScatterSeries Points(string title, IEnumerable<(double X, double Y)> points)
    {
        var series = new ScatterSeries { Title = title, MarkerType = MarkerType.Circle, MarkerSize = 5, MarkerFill = Ground, MarkerStroke = Ink, MarkerStrokeThickness = 2 };
        series.Points.AddRange(points.Select(p => new ScatterPoint(p.X, p.Y)));
        return series;
    }

    public static string Svg(PlotModel model, int width, int height)
    {
        var svg = new SvgExporter { Width = width, Height = height, IsDocument = false }.ExportToString(model);
        // The page decides the size; the drawing keeps its shape.
        var end = svg.IndexOf('>', StringComparison.Ordinal);
        var drawn = Names.Aggregate(svg[(end + 1)..], (text, n) => text.Replace($"rgb({n.Colour.R},{n.Colour.G},{n.Colour.B})", $"var(--{n.Name})", StringComparison.Ordinal));
        return $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" aria-hidden=\"true\" focusable=\"false\">" + drawn;
    }
}
