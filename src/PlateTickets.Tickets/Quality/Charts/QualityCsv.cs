using System.Globalization;
using PlateTickets.Process.Statistics;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Quality.Charts;

/// <summary>A control chart as CSV (RFC 4180): one plotted point a row, metric.</summary>
public static class QualityCsv
{
    public static string Write(QualityChart chart, Room room)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new Csv(text))
        {
            var unit = chart.Ask.IsLength ? "mm" : "% of computed";
            csv.Row(
                "time (UTC)", "values", $"value or average, {unit}", "lower control limit", "centre", "upper control limit", $"range, {unit}", "range lower limit", "range upper limit",
                "least by recipe", "most by recipe", "signals", "sheets", "equipment", "lots", "revisions", "by");
            for (var i = 0; i < chart.Groups.Count; i++)
            {
                var group = chart.Groups[i];
                // A moving range belongs to the second of its two values.
                var shift = chart.Ask.Grouping == QualityGrouping.Singles ? 1 : 0;
                var (place, spread) = (chart.Control?.Place.Points[i], i < shift ? null : chart.Control?.Spread.Points[i - shift]);
                csv.Row(
                    group.AtUtc.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture), $"{group.Values.Count}", Number(place?.Value ?? group.Values.Average(v => v.Value)),
                    Number(place?.Lower), Number(chart.Control?.Place.Centre), Number(place?.Upper), Number(spread?.Value), Number(spread?.Lower), Number(spread?.Upper),
                    Number(group.Values[^1].From), Number(group.Values[^1].To),
                    Some(chart.Signals.Where(s => s.At == group).Select(s => s.Rule == ControlRule.SpreadOutside ? "range" : $"rule {(int)s.Rule}")),
                    Some(group.Values.Select(v => TrackingNumber.ForPeople(v.Sheet))), Some(group.Values.Select(v => room.EquipmentById(v.EquipmentId)?.Name ?? "")),
                    Some(group.Values.Select(v => v.Lot)), Some(group.Values.Select(v => $"{v.Revision}")), Some(group.Values.Select(v => v.By)));
            }
        }

        return text.ToString();
    }

    private static string Some(IEnumerable<string> texts) => string.Join("; ", texts.Where(t => t.Length > 0).Distinct());

    private static string Number(double? value) => value?.ToString("0.#####", CultureInfo.InvariantCulture) ?? "";
}
