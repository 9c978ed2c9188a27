using PlateTickets.Tickets.Board;

namespace PlateTickets.Web.Timeline;

/// <summary>Finds sheets by a piece of a number, of a customer's name or of a title.</summary>
internal static class SheetSearch
{
    public static HashSet<int> Find(IEnumerable<BoardSheet> sheets, string text)
    {
        var wanted = text.Trim();
        // Numbers are shown in groups and stored without the spaces.
        var number = wanted.Replace(" ", "", StringComparison.Ordinal);
        return wanted.Length == 0
            ? []
            : [.. sheets.Where(s => Has(s.Number, number) || s.Tickets.Any(t => Has(t.Number, number) || Has(t.Customer, wanted) || Has(t.Title, wanted))).Select(s => s.Id)];
    }

    private static bool Has(string where, string what) => where.Contains(what, StringComparison.OrdinalIgnoreCase);
}
