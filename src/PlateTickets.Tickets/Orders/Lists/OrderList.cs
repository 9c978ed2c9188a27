using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Orders.Lists;

/// <summary>A row of a list of orders as it stands there.</summary>
/// <param name="Line">Where it begins, counted from 1: a text in quotation marks may go on over several lines.</param>
/// <param name="Cells">By the column's name; empty ones left out.</param>
/// <param name="Trouble">What is wrong with the row as a whole; null for a good one.</param>
public sealed record ListRow(int Line, IReadOnlyDictionary<string, string> Cells, string? Trouble);

/// <summary>A list of orders as CSV (RFC 4180).</summary>
/// <param name="Rows">Empty rows left out.</param>
/// <param name="Unread">Columns that no order has; their cells were not looked at.</param>
/// <param name="Refusal">Why it is no such list; null for one.</param>
public sealed record OrderList(IReadOnlyList<ListRow> Rows, IReadOnlyList<string> Unread, CsvTrouble? Refusal)
{
    public const string Customer = "customer";
    public const string Title = "title";
    public const string Press = "press";
    public const string Cylinder = "cylinder";
    public const string Repeat = "repeat mm";
    public const string Material = "material";
    public const string Due = "due";
    public const string Copies = "copies";

    /// <summary>Longest list that is taken.</summary>
    public const int MostRows = 1000;

    private static readonly IReadOnlyList<string> Needed = [Customer, Title, Press, Due];

    /// <summary>The columns of an order.</summary>
    public static IReadOnlyList<string> Columns { get; } = [Customer, Title, Press, Cylinder, Repeat, Material, Due, Copies];

    /// <summary>Reads the rows; what the cells mean is looked at later.</summary>
    public static OrderList Read(string text, char separator)
    {
        using var reader = new StringReader(text);
        using var csv = new CsvParser(reader, new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = separator.ToString(),
            BadDataFound = null,
            TrimOptions = TrimOptions.Trim,
            IgnoreBlankLines = true,
        });
        if (!csv.Read() || csv.Record is not { } header)
        {
            return Refused(1, "The file is empty.");
        }

        var names = Array.ConvertAll(header, h => h.ToLowerInvariant());
        if (Needed.Where(n => !names.Contains(n)).ToList() is { Count: > 0 } missing)
        {
            return Refused(FirstLine(csv), $"The first line must name the columns; {string.Join(", ", missing.Select(m => $"“{m}”"))} {(missing.Count == 1 ? "is" : "are")} missing. Are the cells parted by another sign than “{Sign(separator)}”?");
        }

        if (names.Where(n => n.Length > 0).CountBy(n => n).FirstOrDefault(n => n.Value > 1) is { Key: { } twice })
        {
            return Refused(FirstLine(csv), $"The column “{twice}” is there twice.");
        }

        var rows = new List<ListRow>();
        while (csv.Read())
        {
            if (csv.Record!.All(string.IsNullOrEmpty))
            {
                continue;
            }

            if (rows.Count == MostRows)
            {
                return Refused(FirstLine(csv), $"A list may have {MostRows} orders at most: split the file.");
            }

            rows.Add(Row(csv, names));
        }

        return rows.Count == 0
            ? Refused(1, "There is no order below the names of the columns.")
            : new OrderList(rows, [.. names.Where(n => n.Length > 0 && !Columns.Contains(n))], null);
    }

    private static ListRow Row(CsvParser csv, string[] names)
    {
        var cells = csv.Record!;
        var trouble = csv.RawRecord.Count(c => c == '"') % 2 == 1 ? "A text begins with a quotation mark and never ends with one."
            : cells.Length != names.Length ? $"It has {cells.Length} cells, the first line {names.Length}: does a text hold the separator without quotation marks around it?"
            : null;
        return new ListRow(
            FirstLine(csv),
            names.Zip(cells).Where(c => c.Second.Length > 0 && Columns.Contains(c.First)).ToDictionary(c => c.First, c => Csv.Unguarded(c.Second)),
            trouble);
    }

    // The parser counts to the record's last line.
    private static int FirstLine(CsvParser csv) => csv.RawRow - csv.RawRecord.AsSpan().TrimEnd("\r\n").Count('\n');

    private static string Sign(char separator) => separator == '\t' ? "tab" : separator.ToString();

    private static OrderList Refused(int line, string sentence) => new([], [], new CsvTrouble(line, sentence));
}
