using System.Globalization;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process.Units;

namespace PlateTickets.Web.Orders;

/// <summary>Says in a sentence what sheets an order will take.</summary>
internal static class LayoutPreview
{
    public static string Describe(NestResult result, int plates, LengthSystem units)
    {
        if (result.TooLarge.Count + result.NoSheetLeft.Count is var left and > 0)
        {
            return $"There are not enough sheets on the shelf for {left} of the {plates} plates: the order can be saved, and its plates wait on the layout page.";
        }

        var sheets = result.Sheets.GroupBy(s => (s.Width, s.Length))
            .Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Count()} of {units.Size(g.Key.Width / 1000.0, g.Key.Length / 1000.0)}"));
        var area = result.Sheets.Sum(s => s.Width * (double)s.Length);
        var used = result.Sheets.SelectMany(s => s.Plates).Sum(p => p.Width * (double)p.Length);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{plates} {(plates == 1 ? "plate" : "plates")} on {result.Sheets.Count} {(result.Sheets.Count == 1 ? "sheet" : "sheets")} ({string.Join(", ", sheets)}); plates cover {used / area * 100:0} % of the sheet area.");
    }
}
