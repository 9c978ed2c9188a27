using PlateTickets.Process.Statistics;
using PlateTickets.Process.Units;

namespace PlateTickets.Process.Exposure;

/// <summary>The time for a wanted floor with the ends between which it lies.</summary>
/// <param name="Seconds">Exposure time in s at the asked irradiance.</param>
/// <param name="LowSeconds">Lower end at the asked confidence; null when the test is too uncertain to give one.</param>
/// <param name="HighSeconds">Upper end.</param>
/// <param name="Extrapolated">True when the dose lies outside what was tested.</param>
/// <param name="Explanation">The one line.</param>
public sealed record FloorTime(double Seconds, double? LowSeconds, double? HighSeconds, bool Extrapolated, string Explanation);

/// <summary>A working curve fitted to a step test: floor = base + Dp ln(E / Ec).</summary>
public sealed class FloorCurve
{
    private readonly StepTest _test;
    private readonly LineFit _line;

    internal FloorCurve(StepTest test, LineFit line)
    {
        _test = test;
        _line = line;
        Curve = new WorkingCurve(line.Slope, Math.Exp(-line.Intercept / line.Slope));
    }

    /// <summary>Dp in mm and Ec in mJ/cm².</summary>
    public WorkingCurve Curve { get; }

    /// <summary>Share of the variation that the curve explains, 0 to 1.</summary>
    public double RSquared => _line.RSquared;

    /// <summary>Standard deviation of the measured floors around the curve, in mm.</summary>
    public double ResidualMm => _line.ResidualStandardDeviation;

    /// <summary>Least and greatest tested dose in mJ/cm².</summary>
    public (double Low, double High) TestedMjPerCm2 => (Math.Exp(_line.XMin), Math.Exp(_line.XMax));

    /// <summary>Floor in mm, base included, of a dose in mJ/cm² above 0, with half its confidence band.</summary>
    public (double FloorMm, double HalfBandMm) FloorAt(double doseMjPerCm2, double confidence = 0.95)
    {
        var x = Math.Log(Guard.Above(doseMjPerCm2, 0, "The dose", "mJ/cm²"));
        return (_test.BaseMm + Math.Max(0, _line.At(x)), _line.HalfBand(x, confidence));
    }

    /// <summary>The time for a floor (mm, base included) at an irradiance.</summary>
    /// <exception cref="PlateRoomException">The floor is not between base and plate thickness, or the irradiance not above 0.</exception>
    public FloorTime TimeFor(double floorMm, double irradianceMwPerCm2, double confidence = 0.95, LengthSystem units = LengthSystem.Metric)
    {
        if (!(floorMm > _test.BaseMm) || !(floorMm < _test.PlateThicknessMm))
        {
            throw new PlateRoomException(
                $"A floor of {units.Thickness(floorMm)} is not between the base ({units.Show(_test.BaseMm, 3)}) and the plate thickness ({units.Thickness(_test.PlateThicknessMm)}): check the wanted floor.");
        }

        var (x, low, high) = _line.XFor(floorMm - _test.BaseMm, confidence);
        var dose = Math.Exp(x);
        var seconds = Reciprocity.Seconds(dose, irradianceMwPerCm2);
        var extrapolated = x < _line.XMin - 1e-9 || x > _line.XMax + 1e-9;
        return new FloorTime(
            seconds, Seconds(low, irradianceMwPerCm2), Seconds(high, irradianceMwPerCm2), extrapolated,
            $"{Durations.ForPeople(seconds)} = {Numbers.ForPeople(dose, 0)} mJ/cm² / {Numbers.ForPeople(irradianceMwPerCm2, 2)} mW/cm² for a floor of {units.Thickness(floorMm)}, by Dp {units.Show(Curve.DpMm, 3)}, Ec {Numbers.ForPeople(Curve.EcMjPerCm2, 1)} mJ/cm²"
            + (extrapolated ? $"; outside the tested {Numbers.ForPeople(TestedMjPerCm2.Low, 0)} to {Numbers.ForPeople(TestedMjPerCm2.High, 0)} mJ/cm²" : ""));
    }

    private static double? Seconds(double? logDose, double irradiance) => logDose is { } x && double.IsFinite(Math.Exp(x)) ? Math.Exp(x) / irradiance : null;
}
