using System.Globalization;
using System.Text.RegularExpressions;
using CsvHelper;
using CsvHelper.Configuration;

namespace PlateTickets.Tickets;

/// <summary>
/// Writes CSV (RFC 4180) with the one guard against formula injection: a cell that a spreadsheet would take for a formula gets an apostrophe
/// in front, unless it is a plain number.
/// </summary>
public sealed partial class Csv(TextWriter text) : IAsyncDisposable, IDisposable
{
    /// <summary>Tells a spreadsheet that the text is UTF-8.</summary>
    public static ReadOnlySpan<byte> Mark => [0xEF, 0xBB, 0xBF];

    // The first characters of OWASP's page on CSV injection: = + - @, tab, carriage return, line feed, and the full-width forms of the first four.
    private const string FormulaStarts = "=+-@\t\r\n＝＋－＠";

    private readonly CsvWriter _csv = new(text, new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\r\n" }, leaveOpen: true);

    public void Row(params ReadOnlySpan<string> cells)
    {
        foreach (var cell in cells)
        {
            if (cell.Length > 0 && FormulaStarts.Contains(cell[0], StringComparison.Ordinal) && !PlainNumber().IsMatch(cell))
            {
                _csv.WriteField("'" + cell, shouldQuote: true);
            }
            else
            {
                _csv.WriteField(cell);
            }
        }

        _csv.NextRecord();
    }

    /// <summary>A cell as it was before the guard: a list that the program wrote can be read again.</summary>
    public static string Unguarded(string cell) =>
        cell.Length > 1 && cell[0] == '\'' && FormulaStarts.Contains(cell[1], StringComparison.Ordinal) ? cell[1..] : cell;

    /// <summary>Sends on what was written so far.</summary>
    public Task FlushAsync() => _csv.FlushAsync();

    public ValueTask DisposeAsync() => _csv.DisposeAsync();

    public void Dispose() => _csv.Dispose();

    [GeneratedRegex(@"^-?\d+(\.\d+)?(E[+-]?\d+)?\z", RegexOptions.CultureInvariant)]
    private static partial Regex PlainNumber();
}
