using System.Globalization;
using System.Text.RegularExpressions;
using UnitsNet;
using UnitsNet.Units;

namespace PlateTickets.Process.Units;

/// <summary>Reads lengths as people type them: "1.7", "1.7 mm", "0.067 in", "67 mil", "1700 µm". Without a unit it is the reader's own.</summary>
public static partial class LengthText
{
    private static readonly Dictionary<string, LengthUnit> Lengths = new(StringComparer.OrdinalIgnoreCase)
    {
        ["mm"] = LengthUnit.Millimeter,
        ["cm"] = LengthUnit.Centimeter,
        ["m"] = LengthUnit.Meter,
        ["µm"] = LengthUnit.Micrometer,
        ["μm"] = LengthUnit.Micrometer,
        ["um"] = LengthUnit.Micrometer,
        ["in"] = LengthUnit.Inch,
        ["inch"] = LengthUnit.Inch,
        ["\""] = LengthUnit.Inch,
        ["″"] = LengthUnit.Inch,
        ["mil"] = LengthUnit.Mil,
        ["thou"] = LengthUnit.Mil,
    };

    private static readonly Dictionary<string, SpeedUnit> Speeds = new(StringComparer.OrdinalIgnoreCase)
    {
        ["mm/min"] = SpeedUnit.MillimeterPerMinute,
        ["cm/min"] = SpeedUnit.CentimeterPerMinute,
        ["m/min"] = SpeedUnit.MeterPerMinute,
        ["mm/s"] = SpeedUnit.MillimeterPerSecond,
        ["in/min"] = SpeedUnit.InchPerMinute,
        ["ft/min"] = SpeedUnit.FootPerMinute,
    };

    /// <summary>The length in mm. A decimal comma is read as a point.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="what">Its name in the sentence of a refusal, such as "The wanted floor".</param>
    /// <param name="bare">What a number without a unit means.</param>
    /// <exception cref="PlateRoomException">It is no length.</exception>
    public static double Millimetres(string? text, string what, LengthSystem bare = LengthSystem.Metric)
    {
        if (Parts(text) is var (value, unit))
        {
            if (unit.Length == 0)
            {
                return bare == LengthSystem.Metric ? value : Length.FromInches(value).Millimeters;
            }

            if (Lengths.TryGetValue(unit, out var known))
            {
                return Length.From(value, known).Millimeters;
            }
        }

        const string How = "Type it like 1.19, 1.19 mm, 0.047 in or 47 mil.";
        throw new PlateRoomException(
            string.IsNullOrWhiteSpace(text) ? $"{what} is missing: t{How[1..]}" : $"{what}: “{text.Trim()}” is no length. {How}");
    }

    /// <summary>The speed in mm/min: "150", "150 mm/min", "5.9 in/min", "0.15 m/min".</summary>
    /// <inheritdoc cref="Millimetres"/>
    public static double MillimetresPerMinute(string? text, string what, LengthSystem bare = LengthSystem.Metric)
    {
        if (Parts(text) is var (value, unit))
        {
            if (unit.Length == 0)
            {
                return bare == LengthSystem.Metric ? value : Speed.FromInchesPerMinute(value).MillimetersPerMinutes;
            }

            if (Speeds.TryGetValue(unit.Replace(" ", "", StringComparison.Ordinal), out var known))
            {
                return Speed.From(value, known).MillimetersPerMinutes;
            }
        }

        const string How = "Type it like 150, 150 mm/min or 5.9 in/min.";
        throw new PlateRoomException(
            string.IsNullOrWhiteSpace(text) ? $"{what} is missing: t{How[1..]}" : $"{what}: “{text.Trim()}” is no speed. {How}");
    }

    private static (double Value, string Unit)? Parts(string? text)
    {
        // The thousands of a figure that this program showed come apart with a no-break space.
        var match = Form().Match((text ?? "").Replace("\u00a0", "", StringComparison.Ordinal));
        return match.Success && double.TryParse(match.Groups[1].Value.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            ? (value, match.Groups[2].Value)
            : null;
    }

    [GeneratedRegex(@"^\s*([-+]?\d+(?:[.,]\d+)?|[-+]?[.,]\d+)\s*(\D*?)\s*$")]
    private static partial Regex Form();
}
