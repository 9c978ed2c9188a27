using System.Globalization;

namespace PlateTickets.Tickets.Reports;

/// <summary>A report as CSV (RFC 4180).</summary>
public static class ReportCsv
{
    public static string Write(RoomReport report)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new Csv(text))
        {
            csv.Row("section", "figure", "unit", $"{report.Period.FromText} to {report.Period.ToText}", $"{report.Period.Before.FromText} to {report.Period.Before.ToText}", "change");
            foreach (var line in report.Lines)
            {
                csv.Row(line.Section, line.Title, line.Unit, Number(line.Value, line), Number(line.Before, line), Number(line.Change, line));
            }
        }

        return text.ToString();
    }

    private static string Number(double? value, ReportLine line) => value?.ToString(line.Decimals == 0 ? "0" : "0." + new string('#', line.Decimals), CultureInfo.InvariantCulture) ?? "";
}
