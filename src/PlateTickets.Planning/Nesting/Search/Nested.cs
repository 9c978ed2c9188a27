namespace PlateTickets.Planning.Nesting.Search;

/// <summary>A layout found for plates whose directions are given, with its value.</summary>
internal sealed record Nested(NestResult Result, LayoutValue Value)
{
    /// <param name="turned">Does the plate at an index lie across? Null when it may turn by itself.</param>
    public static Nested Of(
        IReadOnlyList<NestPlate> plates, IReadOnlyList<NestStock> stocks, NestRules rules, NestEffort effort, Func<int, bool?> turned)
    {
        var laid = new List<(NestPlate Plate, bool? Turned)>();
        var tooLarge = new List<NestPlate>();
        for (var i = 0; i < plates.Count; i++)
        {
            var (plate, turn) = (plates[i], turned(i));
            var fits = turn switch
            {
                null => PlateNesting.Fits(stocks, rules, plate.Across, plate.Around),
                true => SetDirections.Fits(stocks, rules, plate.Around, plate.Across),
                false => SetDirections.Fits(stocks, rules, plate.Across, plate.Around),
            };
            if (fits)
            {
                laid.Add((plate, turn));
            }
            else
            {
                tooLarge.Add(plate);
            }
        }

        if (laid.Count == 0)
        {
            return new Nested(new NestResult([], tooLarge), new LayoutValue(tooLarge.Count, 0, 0, 0, 0));
        }

        var problem = ProblemOf(laid, stocks, rules);
        var layout = new LayoutSearch(problem, effort).Run();
        var sheets = layout.Sheets.ConvertAll(f => SheetOf(f, laid, stocks, rules));
        return new Nested(
            new NestResult(sheets, tooLarge) { NoSheetLeft = layout.Loose.ConvertAll(i => laid[i].Plate) },
            LayoutValue.Of(problem, layout) with { Missing = tooLarge.Count + layout.Loose.Count });
    }

    private static Problem ProblemOf(List<(NestPlate Plate, bool? Turned)> laid, IReadOnlyList<NestStock> stocks, NestRules rules)
    {
        var sets = laid.Select(l => l.Plate.Set).Distinct().Index().ToDictionary(s => s.Item, s => s.Index);
        int Width(int i) => checked((int)((laid[i].Turned == true ? laid[i].Plate.Around : laid[i].Plate.Across) + rules.Gap));
        int Length(int i) => checked((int)((laid[i].Turned == true ? laid[i].Plate.Across : laid[i].Plate.Around) + rules.Gap));
        return new Problem
        {
            Width = [.. Enumerable.Range(0, laid.Count).Select(Width)],
            Length = [.. Enumerable.Range(0, laid.Count).Select(Length)],
            Turns = [.. laid.Select(l => l.Turned is null && l.Plate.Across != l.Plate.Around)],
            Set = [.. laid.Select(l => sets[l.Plate.Set])],
            Separation = [.. laid.Select((l, i) => l.Plate.Separation < 0 ? -1 - i : l.Plate.Separation)],
            Due = [.. laid.Select(l => l.Plate.Due)],
            Sets = sets.Count,
            Kinds = [.. stocks.Select((s, i) => new SheetKind(
                i,
                (int)Math.Max(0, s.Width - (2 * rules.SideMargin) + rules.Gap),
                (int)Math.Max(0, s.Length - (2 * rules.ClampMargin) + rules.Gap),
                ((double)s.Width * s.Length) + rules.AreaPerSheet,
                s.Copies ?? int.MaxValue,
                s.Lot))],
            Rules = rules,
        }.Measured();
    }

    private static NestSheet SheetOf(Filling filling, List<(NestPlate Plate, bool? Turned)> laid, IReadOnlyList<NestStock> stocks, NestRules rules)
    {
        var stock = stocks[filling.Kind];
        return new NestSheet(stock.Id, stock.Width, stock.Length, [.. filling.Spots.Select(s =>
        {
            var (plate, turned) = laid[s.Item];
            var across = turned ?? s.Turned;
            return new PlacedPlate(
                plate.Id, rules.SideMargin + s.X, rules.ClampMargin + s.Y,
                across ? plate.Around : plate.Across, across ? plate.Across : plate.Around, across);
        })]);
    }
}
