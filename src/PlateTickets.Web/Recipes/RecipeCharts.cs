using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;
using PlateTickets.Process.Exposure;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Recipes;

/// <summary>The lead's charts.</summary>
internal static class RecipeCharts
{
    private const int Samples = 60;

    /// <summary>Measured floors, the fitted curve with its 95 % band, and the wanted floor.</summary>
    public static PlotModel StepTest(StepTest test, FloorCurve curve, double wantedFloorMm, LengthSystem units)
    {
        var model = Charts.New(Charts.Axis(AxisPosition.Bottom, "Exposure time at the test's irradiance, s"), Charts.Axis(AxisPosition.Left, $"Floor, {units.Unit()}"));
        var (low, high) = (test.Points.Min(p => p.Seconds), test.Points.Max(p => p.Seconds));
        var times = Enumerable.Range(0, Samples + 1).Select(i => low * 0.85 * Math.Pow(high * 1.15 / (low * 0.85), i / (double)Samples)).ToList();
        var floors = times.Select(t => (Time: t, Floor: curve.FloorAt(t * test.IrradianceMwPerCm2))).ToList();
        model.Series.Add(Charts.Area("95 % confidence of the curve", floors.Select(f => (f.Time, units.Value(f.Floor.FloorMm - f.Floor.HalfBandMm), units.Value(f.Floor.FloorMm + f.Floor.HalfBandMm)))));
        model.Series.Add(Charts.Curve("Fitted curve", floors.Select(f => new DataPoint(f.Time, units.Value(f.Floor.FloorMm)))));
        model.Series.Add(Charts.Points("Measured", test.Points.Select(p => (p.Seconds, units.Value(p.FloorMm)))));
        model.Annotations.Add(new LineAnnotation
        {
            Type = LineAnnotationType.Horizontal,
            Y = units.Value(wantedFloorMm),
            Color = Charts.Limit,
            LineStyle = LineStyle.Dash,
            StrokeThickness = 2,
            Text = "wanted floor",
            TextColor = Charts.Limit,
        });
        return model;
    }

    /// <summary>Readings of one set of lamps, the trend with its band, and the limit.</summary>
    public static PlotModel Lamps(IReadOnlyList<LampReadingEntry> readings, LampTrend? trend, DateTime nowUtc)
    {
        var model = Charts.New(
            new DateTimeAxis { Position = AxisPosition.Bottom, StringFormat = "d MMM", MinimumPadding = 0.04, MaximumPadding = 0.04 },
            Charts.Axis(AxisPosition.Left, "UV-A, mW/cm²"));
        if (trend is not null)
        {
            var from = readings.Min(r => r.ReadUtc);
            var days = Enumerable.Range(0, Samples + 1).Select(i => from + ((nowUtc.AddDays(28) - from) * (i / (double)Samples))).ToList();
            var line = days.Select(d => (X: DateTimeAxis.ToDouble(d), At: trend.At(d))).ToList();
            model.Series.Add(Charts.Area("95 % confidence of the trend", line.Select(l => (l.X, l.At.IrradianceMwPerCm2 - l.At.HalfBand, l.At.IrradianceMwPerCm2 + l.At.HalfBand))));
            model.Series.Add(Charts.Curve("Trend", line.Select(l => new DataPoint(l.X, l.At.IrradianceMwPerCm2))));
            model.Annotations.Add(new LineAnnotation
            {
                Type = LineAnnotationType.Horizontal,
                Y = trend.LimitMwPerCm2,
                Color = Charts.Limit,
                LineStyle = LineStyle.Dash,
                StrokeThickness = 2,
                Text = "usable limit",
                TextColor = Charts.Limit,
            });
            model.Axes[1].Minimum = trend.LimitMwPerCm2 * 0.95;
        }

        model.Series.Add(Charts.Points("Readings", readings.Select(r => (DateTimeAxis.ToDouble(r.ReadUtc), r.IrradianceMwPerCm2))));
        return model;
    }
}
