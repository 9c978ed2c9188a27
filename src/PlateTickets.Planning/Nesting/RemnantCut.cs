namespace PlateTickets.Planning.Nesting;

/// <summary>The largest piece that one cut from edge to edge frees before the sheet is exposed: micrometres.</summary>
/// <param name="AcrossTheAxis">True when the cut runs around the drum and frees a piece at the end of the axis; false when it frees one at the end of the length.</param>
/// <param name="Width">Of the remnant, along the drum axis.</param>
/// <param name="Length">Of the remnant, around the drum.</param>
/// <param name="KeptWidth">Of the sheet that goes on.</param>
/// <param name="KeptLength">Of the sheet that goes on.</param>
public sealed record RemnantCut(bool AcrossTheAxis, long Width, long Length, long KeptWidth, long KeptLength)
{
    /// <summary>The cut worth making, or null. The sheet keeps its rims on all sides.</summary>
    /// <param name="sheet">With at least one plate.</param>
    /// <param name="rules">Gives the rims.</param>
    /// <param name="leastSide">A piece with a shorter side is not worth keeping.</param>
    public static RemnantCut? Of(NestSheet sheet, NestRules rules, long leastSide)
    {
        var keptWidth = sheet.Plates.Max(p => p.X + p.Width) + rules.SideMargin;
        var keptLength = sheet.Plates.Max(p => p.Y + p.Length) + rules.ClampMargin;
        RemnantCut[] cuts =
        [
            new(true, sheet.Width - keptWidth, sheet.Length, keptWidth, sheet.Length),
            new(false, sheet.Width, sheet.Length - keptLength, sheet.Width, keptLength),
        ];
        return cuts.Where(c => Math.Min(c.Width, c.Length) >= leastSide).MaxBy(c => (double)c.Width * c.Length);
    }
}
