using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace PlateTickets.Tickets.Orders;

/// <summary>A plate with its ink, for the list that goes to a spreadsheet.</summary>
public sealed record InkLine(
    string Ticket, string Customer, string Title, DateTime EnteredUtc, string Colour, int Copy, int WidthUm, int LengthUm, double? Coverage, string FileName);

/// <summary>Plates with their ink coverage as CSV (RFC 4180). A cell that a spreadsheet would take for a formula is guarded with an apostrophe.</summary>
public static class InkCsv
{
    public static string Write(IEnumerable<InkLine> lines)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        // OWASP's list for CSV injection: = + - @, tab, carriage return and line feed at the start of a cell.
        var settings = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            NewLine = "\r\n",
            InjectionOptions = InjectionOptions.Escape,
            InjectionCharacters = ['=', '+', '-', '@', '\t', '\r', '\n'],
            InjectionEscapeCharacter = '\'',
        };
        using (var csv = new CsvWriter(text, settings))
        {
            Row(csv, "ticket", "customer", "title", "entered (UTC)", "colour", "copy", "width mm", "length mm", "coverage %", "ink cm2", "file");
            foreach (var line in lines)
            {
                Row(
                    csv, line.Ticket, line.Customer, line.Title, line.EnteredUtc.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture), line.Colour,
                    $"{line.Copy}", Number(line.WidthUm / 1000.0, "0.###"), Number(line.LengthUm / 1000.0, "0.###"), Number(line.Coverage * 100, "0.###"),
                    Number(line.Coverage * line.WidthUm * line.LengthUm / 1e8, "0.##"), line.FileName);
            }
        }

        return text.ToString();
    }

    private static string Number(double? value, string format) => value?.ToString(format, CultureInfo.InvariantCulture) ?? "";

    private static void Row(CsvWriter csv, params IEnumerable<string> cells)
    {
        foreach (var cell in cells)
        {
            csv.WriteField(cell);
        }

        csv.NextRecord();
    }
}
