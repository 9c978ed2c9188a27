using PlateTickets.Process;
using PlateTickets.Tickets.Reports;

namespace PlateTickets.Web.Reports;

/// <summary>Figures of a report as people read them, on screen and on paper.</summary>
internal static class ReportText
{
    /// <summary>What the figures mean, in one sentence each.</summary>
    public static IReadOnlyList<string> Notes { get; } =
    [
        "Done on time: of the tickets done in the period, those done by their due time. Promise kept: of the tickets due in the period (up to now, without cancelled ones), those done by then; what is still open is late.",
        "Lead time runs from the order's entry to the last plate, nights and closed days included. Sheet waste is the part of the sheets that did not become plates; plates that were made again count as waste, remnants that went back to the shelf do not.",
        "Waiting counts working time between a sheet being ready for a station and its start. Run and attended hours are the recipes' times of the work that ended in the period; use is the time that a machine could take nothing else, "
        + "against the shifts as they are today (for each drawer of a dryer), and exceeds 100 % where work goes on through the night.",
    ];

    public static string Figure(double? value, ReportLine line) => value is { } number ? With(Numbers.ForPeople(number, line.Decimals), line.Unit) : "–";

    /// <summary>"+3.1 %, better", "−2", "no change".</summary>
    public static string Change(ReportLine line)
    {
        if (line.Change is not { } change)
        {
            return "–";
        }

        if (change == 0)
        {
            return "no change";
        }

        // A difference of two percentages is in points of percent.
        var text = With($"{(change > 0 ? "+" : "−")}{Numbers.ForPeople(Math.Abs(change), line.Decimals)}", line.Unit == "%" ? "points" : line.Unit);
        return Verdict(line) is { } verdict ? $"{text}, {verdict}" : text;
    }

    /// <summary>"better", "worse", or null where the figure means neither.</summary>
    public static string? Verdict(ReportLine line) => line.Sense == ReportSense.Plain || line.Change is null or 0
        ? null
        : line.Change > 0 == (line.Sense == ReportSense.MoreIsBetter) ? "better" : "worse";

    private static string With(string number, string unit) => unit.Length == 0 ? number : $"{number} {unit}";
}
