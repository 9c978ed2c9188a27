using System.Globalization;
using System.Text.RegularExpressions;

namespace PlateTickets.Process.Units;

/// <summary>Reads lengths as people type them: "1.7", "1.7 mm", "0.067 in", "67 mil", "1700 µm". Without a unit it is mm.</summary>
public static partial class LengthText
{
    // Exact by definition: the inch is 25.4 mm (international yard and pound agreement, 1959), the mil a thousandth of it.
    private static readonly Dictionary<string, double> UnitMm = new(StringComparer.OrdinalIgnoreCase)
    {
        [""] = 1,
        ["mm"] = 1,
        ["cm"] = 10,
        ["m"] = 1000,
        ["µm"] = 0.001,
        ["μm"] = 0.001,
        ["um"] = 0.001,
        ["in"] = 25.4,
        ["inch"] = 25.4,
        ["\""] = 25.4,
        ["″"] = 25.4,
        ["mil"] = 0.0254,
        ["thou"] = 0.0254,
    };

    /// <summary>The length in mm. A decimal comma is read as a point.</summary>
    /// <param name="text">What was typed.</param>
    /// <param name="what">Its name in the sentence of a refusal, such as "The wanted floor".</param>
    /// <exception cref="PlateRoomException">It is no length.</exception>
    public static double Millimetres(string? text, string what)
    {
        var match = Form().Match(text ?? "");
        if (match.Success
            && double.TryParse(match.Groups[1].Value.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            && UnitMm.TryGetValue(match.Groups[2].Value, out var unit))
        {
            return value * unit;
        }

        throw new PlateRoomException(
            string.IsNullOrWhiteSpace(text)
                ? $"{what} is missing: type it like 1.19, 1.19 mm, 0.047 in or 47 mil."
                : $"{what}: “{text.Trim()}” is no length. Type it like 1.19, 1.19 mm, 0.047 in or 47 mil.");
    }

    [GeneratedRegex(@"^\s*([-+]?\d+(?:[.,]\d+)?|[-+]?[.,]\d+)\s*(\D*?)\s*$")]
    private static partial Regex Form();
}
