using System.Globalization;

namespace PlateTickets.Tickets.Orders;

/// <summary>A plate with its ink, for the list that goes to a spreadsheet.</summary>
public sealed record InkLine(
    string Ticket, string Customer, string Title, DateTime EnteredUtc, string Colour, int Copy, int WidthUm, int LengthUm, double? Coverage, string FileName);

/// <summary>Plates with their ink coverage as CSV (RFC 4180).</summary>
public static class InkCsv
{
    public static string Write(IEnumerable<InkLine> lines)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var csv = new Csv(text))
        {
            csv.Row("ticket", "customer", "title", "entered (UTC)", "colour", "copy", "width mm", "length mm", "coverage %", "ink cm2", "file");
            foreach (var line in lines)
            {
                csv.Row(
                    line.Ticket, line.Customer, line.Title, line.EnteredUtc.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture), line.Colour,
                    $"{line.Copy}", Number(line.WidthUm / 1000.0, "0.###"), Number(line.LengthUm / 1000.0, "0.###"), Number(line.Coverage * 100, "0.###"),
                    Number(line.Coverage * line.WidthUm * line.LengthUm / 1e8, "0.##"), line.FileName);
            }
        }

        return text.ToString();
    }

    private static string Number(double? value, string format) => value?.ToString(format, CultureInfo.InvariantCulture) ?? "";
}
