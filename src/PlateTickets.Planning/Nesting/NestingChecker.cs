using System.Globalization;

namespace PlateTickets.Planning.Nesting;

/// <summary>Checks a whole nesting without knowing how it was made: every plate once, sheets that exist, and who shares them.</summary>
public static class NestingChecker
{
    /// <summary>What is wrong, one sentence each.</summary>
    public static IReadOnlyList<string> Violations(
        NestResult result, IReadOnlyList<NestPlate> plates, IReadOnlyList<NestStock> stocks, NestRules rules)
    {
        var found = result.Sheets.SelectMany(s => LayoutChecker.Violations(s, rules)).ToList();
        var known = plates.ToDictionary(p => p.Id);
        CheckPlates(result, plates, known, found);
        CheckStocks(result, stocks, found);
        foreach (var sheet in result.Sheets)
        {
            found.AddRange(CompanyViolations([.. sheet.Plates.Select(p => known[p.PlateId])], rules));
        }

        if (rules.OneLotPerSet)
        {
            var lots = stocks.ToDictionary(s => s.Id, s => s.Lot);
            found.AddRange(result.Sheets.SelectMany(s => s.Plates.Select(p => (known[p.PlateId].Set, Lot: lots[s.StockId]))).Distinct()
                .GroupBy(s => s.Set).Where(s => s.Count() > 1)
                .Select(s => Say($"Set {s.Key} lies on sheets of {s.Count()} lots.")));
        }

        return found;
    }

    /// <summary>What forbids that these plates share a sheet, one sentence each.</summary>
    public static IEnumerable<string> CompanyViolations(IReadOnlyList<NestPlate> plates, NestRules rules)
    {
        if (plates.Count > 0 && plates.Max(p => p.Due) - plates.Min(p => p.Due) is var apart && apart > rules.DueApart)
        {
            yield return Say($"Its plates are due {apart / 60.0:0.#} h apart; {rules.DueApart / 60.0:0.#} h are allowed on one sheet.");
        }

        if (rules.Copies == CopyRule.Apart)
        {
            foreach (var copies in plates.Where(p => p.Separation >= 0).GroupBy(p => p.Separation).Where(c => c.Count() > 1))
            {
                yield return Say($"Plates {string.Join(", ", copies.Select(c => c.Id))} are copies of one separation: they must lie on different sheets.");
            }
        }
    }

    private static void CheckPlates(NestResult result, IReadOnlyList<NestPlate> plates, Dictionary<int, NestPlate> known, List<string> found)
    {
        var laid = result.Sheets.SelectMany(s => s.Plates).ToList();
        var all = laid.Select(p => p.PlateId).Concat(result.TooLarge.Concat(result.NoSheetLeft).Select(p => p.Id)).Order();
        if (!all.SequenceEqual(plates.Select(p => p.Id).Order()))
        {
            found.Add("Not every plate is laid, or reported as left over, exactly once.");
        }

        foreach (var p in laid)
        {
            var plate = known[p.PlateId];
            if ((p.Width, p.Length) != (p.Rotated ? (plate.Around, plate.Across) : (plate.Across, plate.Around)))
            {
                found.Add(Say($"Plate {p.PlateId} is laid in another size than its own."));
            }

            if ((plate.Turn == PlateTurn.Along && p.Rotated) || (plate.Turn == PlateTurn.Across && !p.Rotated && plate.Across != plate.Around))
            {
                found.Add(Say($"Plate {p.PlateId} lies {(p.Rotated ? "across" : "along")}, which is not allowed for it."));
            }
        }

        found.AddRange(laid.Where(p => known[p.PlateId].Turn == PlateTurn.WithSet).GroupBy(p => known[p.PlateId].Set)
            .Where(s => s.Select(p => p.Rotated).Distinct().Count() > 1)
            .Select(s => Say($"Set {s.Key} lies partly along and partly across the sheet: it would misregister.")));
    }

    private static void CheckStocks(NestResult result, IReadOnlyList<NestStock> stocks, List<string> found)
    {
        foreach (var used in result.Sheets.GroupBy(s => s.StockId))
        {
            var stock = stocks.FirstOrDefault(s => s.Id == used.Key);
            if (stock is null || used.Any(s => (s.Width, s.Length) != (stock.Width, stock.Length)))
            {
                found.Add(Say($"There is no stock size {used.Key} of this size."));
            }
            else if (used.Count() > (stock.Copies ?? int.MaxValue))
            {
                found.Add(Say($"{used.Count()} sheets of stock size {used.Key} are used; there are {stock.Copies}."));
            }
        }
    }

    private static string Say(FormattableString sentence) => sentence.ToString(CultureInfo.InvariantCulture);
}
