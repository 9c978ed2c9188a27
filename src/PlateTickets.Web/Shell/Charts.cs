using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Series;

namespace PlateTickets.Web.Shell;

/// <summary>The look of all charts.</summary>
internal static class Charts
{
    public static readonly OxyColor Ink = OxyColor.FromRgb(0x14, 0x25, 0x2b);
    public static readonly OxyColor Primary = OxyColor.FromRgb(0x0b, 0x55, 0x63);
    public static readonly OxyColor Band = OxyColor.FromAColor(45, Primary);
    public static readonly OxyColor Limit = OxyColor.FromRgb(0x6b, 0x3a, 0x63);

    public static PlotModel New(Axis across, Axis up)
    {
        var model = new PlotModel
        {
            DefaultFont = "Atkinson Hyperlegible Next",
            DefaultFontSize = 14,
            TextColor = Ink,
            PlotAreaBorderColor = OxyColor.FromRgb(0x9a, 0xa7, 0xaa),
            Background = OxyColors.White,
        };
        foreach (var axis in new[] { across, up })
        {
            axis.MajorGridlineStyle = LineStyle.Solid;
            axis.MajorGridlineColor = OxyColor.FromRgb(0xe4, 0xdf, 0xd2);
            axis.TicklineColor = OxyColor.FromRgb(0x9a, 0xa7, 0xaa);
            axis.AxisTitleDistance = 8;
            model.Axes.Add(axis);
        }

        return model;
    }

    public static LinearAxis Axis(AxisPosition position, string title) => new() { Position = position, Title = title, MinimumPadding = 0.06, MaximumPadding = 0.06 };

    public static LineSeries Line(string title, IEnumerable<DataPoint> points, OxyColor? color = null, LineStyle style = LineStyle.Solid)
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
        var series = new ScatterSeries { Title = title, MarkerType = MarkerType.Circle, MarkerSize = 5, MarkerFill = OxyColors.White, MarkerStroke = Ink, MarkerStrokeThickness = 2 };
        series.Points.AddRange(points.Select(p => new ScatterPoint(p.X, p.Y)));
        return series;
    }

    public static string Svg(PlotModel model, int width, int height)
    {
        var svg = new SvgExporter { Width = width, Height = height, IsDocument = false }.ExportToString(model);
        // The page decides the size; the drawing keeps its shape.
        var end = svg.IndexOf('>', StringComparison.Ordinal);
        return $"<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" aria-hidden=\"true\" focusable=\"false\">" + svg[(end + 1)..];
    }
}
