using PlateTickets.Planning.Scheduling;
using PlateTickets.Process;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Stations;

/// <summary>A sheet that waits for a machine, and why it stands where it does.</summary>
internal sealed record NextSheet(BoardSheet Sheet, string Why);

/// <summary>Says in a few words why the plan has the sheets of a machine in this order.</summary>
internal static class NextReasons
{
    /// <param name="waiting">In planned order.</param>
    /// <param name="most">No more than so many are told.</param>
    /// <param name="running">What is in the machine now.</param>
    /// <param name="machine">The machine.</param>
    /// <param name="board">For the other sheets of their sets.</param>
    public static List<NextSheet> Of(IReadOnlyList<BoardSheet> waiting, int most, IReadOnlyList<BoardSheet> running, Equipment machine, BoardSnapshot board)
    {
        var mates = board.Sheets.Values.SelectMany(s => s.Tickets.Select(t => (t.Id, Sheet: s))).ToLookup(p => p.Id, p => p.Sheet);
        var earliest = waiting.Min(s => s.Stage!.DueByUtc);
        var before = running.Count > 0 ? running[^1] : null;
        var told = new List<NextSheet>(Math.Min(most, waiting.Count));
        foreach (var sheet in waiting.Take(most))
        {
            var reasons = new List<string>();
            if (sheet.Stage!.DueByUtc is { } dueBy && dueBy == earliest)
            {
                reasons.Add("earliest due-by here");
            }

            if (machine.Kind == EquipmentKind.Line && before?.RecipeRevisionId == sheet.RecipeRevisionId)
            {
                reasons.Add("same recipe as the one before, no changeover");
            }

            if (sheet.ReadyUtc is { } ready && sheet.Stage.PlannedStartUtc is { } start && start - ready < TimeSpan.FromMinutes(1))
            {
                reasons.Add("as soon as its rest is over");
            }

            if (Set(sheet, mates) is { Length: > 0 } set)
            {
                reasons.Add(set);
            }

            var text = reasons.Count > 0 ? string.Join("; ", reasons)
                : Before(sheet, waiting) is { Length: > 0 } passedOver ? passedOver
                : told.Count > 0 && told[^1].Sheet.Stage!.DueByUtc <= sheet.Stage.DueByUtc ? "its due-by comes after the one above"
                : "the plan fits it in here";
            told.Add(new(sheet, char.ToUpperInvariant(text[0]) + text[1..]));
            before = sheet;
        }

        return told;
    }

    // It goes before one that is due earlier: why that one is passed over. Empty where it does not.
    private static string Before(BoardSheet sheet, IReadOnlyList<BoardSheet> waiting)
    {
        if (sheet.Stage!.PlannedStartUtc is null)
        {
            return "not planned yet";
        }

        var passed = waiting.SkipWhile(s => s.Id != sheet.Id).Skip(1).Where(s => s.Stage!.DueByUtc < sheet.Stage!.DueByUtc).ToList();
        return passed.Count == 0 ? ""
            : passed.All(s => s.ReadyUtc > sheet.Stage!.PlannedStartUtc) ? "what is due earlier is not ready yet"
            : passed.All(s => s.Stage!.PlannedFinishUtc <= s.Stage.DueByUtc) ? "what is due earlier is still in time after it"
            : "before one with an earlier due-by, so that less is late in all";
    }

    private static string Set(BoardSheet sheet, ILookup<int, BoardSheet> mates)
    {
        var others = sheet.Tickets.SelectMany(t => mates[t.Id]).Where(s => s.Id != sheet.Id).DistinctBy(s => s.Id).ToList();
        if (others.Count == 0)
        {
            return "";
        }

        var open = others.Where(o => o.IsOpen && o.Stage is not null).ToList();
        if (open.Count == 0)
        {
            return "last of its set: the others are done";
        }

        var where = open.GroupBy(o => o.Stage!.Station).OrderBy(g => g.Key).Select(g => $"{(g.Count() == 1 ? "1" : g.Count())} {(g.All(o => o.State == SheetState.OnHold) ? "on hold before" : "at")} {g.Key.Title().ToLowerInvariant()}");
        return $"its set waits for {open.Count + 1} sheets, the others: {string.Join(", ", where)}";
    }
}
