using System.Globalization;
using PlateTickets.Planning.Nesting;

namespace PlateTickets.Benchmarks.Nesting;

/// <summary>Rectangles to lay onto bins, read from a pair of CSV files or from one block of a .2bp file.</summary>
internal sealed record PackingInstance(string Name, IReadOnlyList<PackingBin> Bins, IReadOnlyList<PackingItem> Items)
{
    public static PackingInstance Of(string first, string second) =>
        second == "-" ? FromBlock(first) : new(Path.GetFileName(first).Replace("_bins.csv", "", StringComparison.Ordinal), ReadBins(first), ReadItems(second));

    /// <summary>Every instance of a folder.</summary>
    public static IEnumerable<PackingInstance> OfFolder(string folder)
    {
        foreach (var file in Directory.EnumerateFiles(folder, "*.2bp").Order(StringComparer.Ordinal))
        {
            foreach (var instance in Blocks(file))
            {
                yield return instance;
            }
        }

        foreach (var bins in Directory.EnumerateFiles(folder, "*_bins.csv").Order(StringComparer.Ordinal))
        {
            yield return Of(bins, bins.Replace("_bins.csv", "_items.csv", StringComparison.Ordinal));
        }
    }

    public NestResult Nest(bool rotation, NestEffort? effort)
    {
        var plates = new List<NestPlate>();
        foreach (var (_, width, height, copies) in Items)
        {
            for (var copy = 0; copy < copies; copy++)
            {
                plates.Add(new NestPlate(plates.Count, width, height) { Turn = rotation ? PlateTurn.Free : PlateTurn.Along });
            }
        }

        var stocks = Bins.Select((b, i) => new NestStock(i, b.Width, b.Height) { Copies = b.Copies ?? (Bins.Count > 1 ? 1 : null) }).ToList();
        return PlateNesting.Nest(plates, stocks, new NestRules(0, 0, 0), effort);
    }

    /// <summary>bin,item,x,y,width,height,rotated</summary>
    public void Write(TextWriter to, NestResult result)
    {
        var ids = Items.SelectMany(i => Enumerable.Repeat(i.Id, i.Copies)).ToList();
        to.WriteLine("bin,item,x,y,width,height,rotated");
        foreach (var (number, sheet) in result.Sheets.Index())
        {
            var bin = Bins.Count == 1 ? Say($"{number}") : Say($"{Bins[sheet.StockId].Id}#{result.Sheets.Take(number).Count(s => s.StockId == sheet.StockId) + 1}");
            foreach (var p in sheet.Plates)
            {
                to.WriteLine(Say($"{bin},{ids[p.PlateId]},{p.X},{p.Y},{p.Width},{p.Length},{(p.Rotated ? 1 : 0)}"));
            }
        }
    }

    private static PackingInstance FromBlock(string text)
    {
        var at = text.LastIndexOf(':');
        return at > 0 && Blocks(text[..at]).FirstOrDefault(b => b.Name.EndsWith(Say($"_{text[(at + 1)..]}"), StringComparison.Ordinal)) is { } block
            ? block
            : throw new FormatException($"{text}: give FILE.2bp:N_R, the number of items and the relative number of a block.");
    }

    private static IEnumerable<PackingInstance> Blocks(string file)
    {
        using var lines = File.ReadLines(file).Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
            .Where(l => l.Length > 0).GetEnumerator();
        while (lines.MoveNext())
        {
            var count = Next(0);
            var relative = Next(0);
            var bin = (Height: Next(0), Width: Whole(lines.Current[1]));
            var items = new List<PackingItem>();
            for (var i = 0; i < count; i++)
            {
                var height = Next(0);
                items.Add(new PackingItem(Say($"{i}"), Whole(lines.Current[1]), height, 1));
            }

            yield return new PackingInstance(
                Say($"{Path.GetFileName(file)}_{count}_{relative}"), [new PackingBin("0", bin.Width, bin.Height, null)], items);
        }

        int Next(int column) => lines.MoveNext() ? Whole(lines.Current[column]) : throw new FormatException($"{file} ends in the middle of a block.");
    }

    private static List<PackingBin> ReadBins(string file) =>
        [.. Rows(file).Select(r => new PackingBin(r[0], Whole(r[1]), Whole(r[2]), r.Length > 3 && Whole(r[3]) >= 0 ? Whole(r[3]) : null))];

    private static List<PackingItem> ReadItems(string file) =>
        [.. Rows(file).Select(r => new PackingItem(r[0], Whole(r[1]), Whole(r[2]), r.Length > 3 ? Whole(r[3]) : 1))];

    private static IEnumerable<string[]> Rows(string file) => File.ReadLines(file).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','));

    private static int Whole(string text) => int.TryParse(text, NumberStyles.Integer, CultureInfo.InvariantCulture, out var number)
        ? number
        : throw new FormatException($"“{text}” is not a whole number.");

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
