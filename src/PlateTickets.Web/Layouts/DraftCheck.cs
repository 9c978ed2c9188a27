using PlateTickets.Planning.Nesting;
using PlateTickets.Tickets.Sheets.Layouts;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Layouts;

/// <summary>What is wrong with a draft, in sentences: <paramref name="Sheets"/> for each sheet, <paramref name="Whole"/> for all together.</summary>
internal sealed record DraftCheck(IReadOnlyList<IReadOnlyList<string>> Sheets, IReadOnlyList<string> Whole)
{
    public bool AllGood => Whole.Count == 0 && Sheets.All(s => s.Count == 0);

    public static DraftCheck Of(LayoutDraft draft, Room room)
    {
        var marks = draft.Plates.Select((p, i) => (p.PlateId, Mark: i + 1)).ToDictionary(p => p.PlateId, p => p.Mark);
        var plates = LayoutProposal.PlatesOf(draft.Plates).ToDictionary(p => p.Id);
        var rules = LayoutProposal.Rules(room, draft.Wishes);
        var sheets = draft.Now.Sheets.ConvertAll(s => Sheet(s, marks, plates, rules));
        return new DraftCheck(sheets, [.. LayoutRules.MixedTickets(draft.Now.Sheets.Select(s => s.Nested), p => draft.Plate(p).TicketNumber), .. Counts(draft)]);
    }

    // The checker's sentences name plates by the marks that the page shows.
    private static IReadOnlyList<string> Sheet(DraftSheet sheet, Dictionary<int, int> marks, Dictionary<int, NestPlate> plates, NestRules rules) =>
        sheet.Plates.IsEmpty ? ["There is no plate on this sheet: put one on it or take the sheet out."] :
        [
            .. LayoutChecker.Violations(sheet.Nested with { Plates = [.. sheet.Plates.Select(p => p with { PlateId = marks[p.PlateId] })] }, rules),
            .. NestingChecker.CompanyViolations([.. sheet.Plates.Select(p => plates[p.PlateId] with { Id = marks[p.PlateId] })], rules),
        ];

    private static IEnumerable<string> Counts(LayoutDraft draft) => draft.Now.Sheets.CountBy(s => s.Choice)
        .Where(c => c.Value > (draft.Shelf.Stocks[c.Key].Copies ?? int.MaxValue))
        .Select(c => draft.Shelf.Choices[c.Key] is { Remnant: { } remnant }
            ? $"Remnant {remnant.Mark} is there only once; the layout uses it {c.Value} times."
            : $"The layout uses {c.Value} sheets of lot {draft.Shelf.Choices[c.Key].LotName}; {draft.Shelf.Stocks[c.Key].Copies} are there.");
}
