using PlateTickets.Process;
using PlateTickets.Process.Statistics;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Quality.Charts;

namespace PlateTickets.Web.Quality;

/// <summary>The words and figures of a control chart.</summary>
internal sealed class QualityText(QualityAsk ask, LengthSystem units)
{
    private const int LengthDecimals = 3;

    /// <summary>Of an axis: "mm", "in" or "%".</summary>
    public string Unit => ask.IsLength ? units.Unit() : "%";

    public string Title => ask.IsLength ? QualityAsk.Title(ask.Measure) : $"Time taken at {ask.Station.Title().ToLowerInvariant()} against computed";

    public double Value(double value) => ask.IsLength ? units.Value(value) : value;

    public string Figure(double value) => ask.IsLength ? units.Show(value, LengthDecimals) : $"{Numbers.ForPeople(value)} %";

    /// <summary>A spread needs one decimal more than a value.</summary>
    public string Spread(double value) => ask.IsLength ? units.Show(value, LengthDecimals + 1) : $"{Numbers.ForPeople(value, 2)} %";

    public static string Index(double? value) => value is { } index ? index.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture) : "–";

    public static string Rule(ControlRule rule) => rule switch
    {
        ControlRule.BeyondThree => "Rule 1: a point beyond three sigma",
        ControlRule.TwoOfThreeBeyondTwo => "Rule 2: two of three points beyond two sigma, on one side",
        ControlRule.FourOfFiveBeyondOne => "Rule 3: four of five points beyond one sigma, on one side",
        ControlRule.EightOnOneSide => "Rule 4: eight points in a row on one side of the centre",
        ControlRule.SpreadOutside => "A range beyond its limits",
        _ => throw new ArgumentOutOfRangeException(nameof(rule), rule, "There is no such rule."),
    };

    /// <summary>What Cpk or Ppk says, in words. 1.33 is the usual demand (common practice).</summary>
    public static string Verdict(double index) => index switch
    {
        >= 1.33 => "fits well between the limits",
        >= 1 => "just fits: watch it",
        _ => "does not fit: readings out of limits are to be expected",
    };
}
