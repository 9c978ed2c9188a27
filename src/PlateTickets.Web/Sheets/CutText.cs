using System.Globalization;
using PlateTickets.Planning.Nesting;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Web.Sheets;

/// <summary>Says in words where a sheet is taken from and how it is cut apart.</summary>
internal static class CutText
{
    /// <summary>The plates that are no use when the sheet is cut; empty when all are wanted.</summary>
    public static string Waste(Sheet sheet) => string.Join(", ", sheet.Placements.Where(p => p.Plate!.OutOfSet).Select(p => $"{p.Mark} {p.Plate!.Separation!.Colour}")) is { Length: > 0 } plates
        ? $"Waste when the sheet is cut, made again or not wanted any more: {plates}." : "";

    /// <summary>Lot or remnant, and the remnant to cut off first; empty where stock is not counted.</summary>
    public static string Stock(SheetView view, LengthSystem units)
    {
        var sheet = view.Sheet;
        if (sheet.Lot.Length == 0 && sheet.RemnantMark.Length == 0)
        {
            return "";
        }

        var size = units.Size(sheet.FromWidthUm / 1000.0, sheet.FromLengthUm / 1000.0);
        var from = sheet.RemnantMark.Length > 0 ? $"Remnant {sheet.RemnantMark}, {size}" : $"Full sheet, {size}";
        var lot = sheet.Lot.Length > 0 ? $", lot {sheet.Lot}" : "";
        if (view.CutOff is not { } rest)
        {
            return $"{from}{lot}.";
        }

        var where = sheet.WidthUm < sheet.FromWidthUm
            ? $"at {units.Show(sheet.WidthUm / 1000.0)} along the drum axis"
            : $"at {units.Show(sheet.LengthUm / 1000.0)} around the drum";
        return $"{from}{lot}. First cut off the remnant of {units.Size(rest.WidthUm / 1000.0, rest.LengthUm / 1000.0)} {where}, mark it {rest.Mark} and put it back in the dark.";
    }

    /// <summary>The cuts that part the plates, in their order; empty for one plate.</summary>
    public static string Cuts(Sheet sheet, LengthSystem units)
    {
        var nested = new NestSheet(0, sheet.WidthUm, sheet.LengthUm, [.. sheet.Placements.Select(p =>
            new PlacedPlate(p.PlateId, p.XUm, p.YUm, p.WidthUm, p.LengthUm, p.Rotated))]);
        if (CutList.Of(nested) is not { Count: > 0 } cuts)
        {
            return "";
        }

        var unit = units == LengthSystem.Metric ? "mm" : "in";
        var steps = cuts.Select((c, i) => c.AroundTheDrum
            ? $"{i + 1}. x {N(c.At)}, y {N(c.From)} to {N(c.To)}"
            : $"{i + 1}. y {N(c.At)}, x {N(c.From)} to {N(c.To)}");
        return $"In {unit} from the drawing's top left corner, x along the drum axis, y around the drum: {string.Join("; ", steps)}. Then trim each plate to its size.";

        string N(long micrometres) => (units == LengthSystem.Metric ? micrometres / 1000.0 : micrometres / 25_400.0)
            .ToString(units == LengthSystem.Metric ? "0.#" : "0.###", CultureInfo.InvariantCulture);
    }
}
