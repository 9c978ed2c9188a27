using UnitsNet;
using static System.FormattableString;

namespace PlateTickets.Process.Units;

/// <summary>In which units a person reads lengths. The arithmetic is metric whatever they choose.</summary>
public enum LengthSystem
{
    /// <summary>Millimetres, mm/min, micrometres.</summary>
    Metric = 0,

    /// <summary>Inches, in/min, mils (1 in = 25.4 mm exactly; 1 mil = 0.001 in).</summary>
    Inch = 1,
}

/// <summary>Lengths and speeds as their reader wants them. Rounded here, where they are shown, and nowhere before.</summary>
public static class LengthDisplay
{
    // A thousandth of an inch is the trade's smallest step for whole lengths.
    private const int FewestInchDecimals = 3;

    /// <summary>"571.5 mm" or "22.5 in". At most so many decimals in mm; needless zeros are left out.</summary>
    public static string Show(this LengthSystem system, double mm, int decimals = 1) =>
        $"{Figure(system, mm, decimals)} {system.Unit()}";

    /// <summary>A thickness, floor or relief with all its decimals: "1.70 mm" or "0.067 in".</summary>
    public static string Thickness(this LengthSystem system, double mm) => system == LengthSystem.Metric
        ? Invariant($"{mm:0.00} mm")
        : Invariant($"{Inches(mm):0.000} in");

    /// <summary>A deviation with its sign: "+0.02 mm" or "−0.8 mil".</summary>
    public static string Deviation(this LengthSystem system, double mm) => system == LengthSystem.Metric
        ? Invariant($"{mm:+0.000;−0.000;0.000} mm")
        : Invariant($"{Length.FromMillimeters(mm).Mils:+0.0;−0.0;0.0} mil");

    /// <summary>Width and length: "900 × 1200 mm" or "35.43 × 47.24 in".</summary>
    public static string Size(this LengthSystem system, double widthMm, double lengthMm) => system == LengthSystem.Metric
        ? Invariant($"{widthMm:0.#} × {lengthMm:0.#} mm")
        : Invariant($"{Inches(widthMm):0.##} × {Inches(lengthMm):0.##} in");

    /// <summary>"150 mm/min" or "5.906 in/min".</summary>
    public static string Speed(this LengthSystem system, double mmPerMin) => system == LengthSystem.Metric
        ? $"{Numbers.ForPeople(mmPerMin)} mm/min"
        : $"{Numbers.ForPeople(UnitsNet.Speed.FromMillimetersPerMinutes(mmPerMin).InchesPerMinute, 3)} in/min";

    /// <summary>A very small length: "10 µm" or "0.394 mil".</summary>
    public static string Small(this LengthSystem system, double mm) => system == LengthSystem.Metric
        ? $"{Numbers.ForPeople(mm * 1000, 3)} µm"
        : $"{Numbers.ForPeople(Length.FromMillimeters(mm).Mils, 3)} mil";

    /// <summary>The number without its unit, as <see cref="Show"/> writes it.</summary>
    public static string Figure(this LengthSystem system, double mm, int decimals = 1) => system == LengthSystem.Metric
        ? Numbers.ForPeople(mm, decimals)
        : Numbers.ForPeople(Inches(mm), Math.Max(FewestInchDecimals, decimals + 1));

    /// <summary>"mm" or "in".</summary>
    public static string Unit(this LengthSystem system) => system == LengthSystem.Metric ? "mm" : "in";

    /// <summary>A length in the reader's unit, unrounded, for the axis of a chart.</summary>
    public static double Value(this LengthSystem system, double mm) => system == LengthSystem.Metric ? mm : Inches(mm);

    private static double Inches(double mm) => Length.FromMillimeters(mm).Inches;
}
