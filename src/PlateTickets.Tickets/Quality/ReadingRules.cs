using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Quality;

/// <summary>A reading held against its limits.</summary>
public sealed record Finding(ReadingKind Kind, bool InLimits, string Sentence, int? Value = null, int? From = null, int? To = null, string Text = "")
{
    internal StageReading Of(Sheet sheet, Station station, int? equipmentId, DateTime atUtc, string by) => new()
    {
        SheetId = sheet.Id,
        Station = station,
        EquipmentId = equipmentId,
        Kind = Kind,
        Value = Value,
        From = From,
        To = To,
        Text = Text,
        State = InLimits ? ReadingState.InLimits : ReadingState.Open,
        Sentence = Sentence,
        AtUtc = atUtc,
        By = by,
    };
}

/// <summary>Which readings a station owns, and what is right for a sheet by its recipe.</summary>
public static class ReadingRules
{
    public static IReadOnlyList<ReadingKind> For(Station station) => station switch
    {
        Station.BackExposure => [ReadingKind.Lot, ReadingKind.Floor, ReadingKind.Lamps],
        Station.FaceExposure => [ReadingKind.Lamps],
        Station.Washout => [ReadingKind.Relief],
        Station.PostFinish => [ReadingKind.Thickness, ReadingKind.Relief, ReadingKind.Visual],
        Station.Cutting => [ReadingKind.Thickness, ReadingKind.Visual],
        _ => [],
    };

    public static string Title(this ReadingKind kind) => kind switch
    {
        ReadingKind.Lot => "Lot",
        ReadingKind.Floor => "Floor",
        ReadingKind.Lamps => "Lamps",
        ReadingKind.Relief => "Relief",
        ReadingKind.Thickness => "Total thickness",
        ReadingKind.Visual => "Visual inspection",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "There is no such reading."),
    };

    /// <summary>The least and the most that is right, in whole micrometres (µW/cm² for lamps); null for no limit.</summary>
    public static (int? From, int? To) Limits(ReadingKind kind, RecipeSettings recipe, Material material)
    {
        var floor = recipe.BackExposure.FloorMm;
        var thickness = material.ThicknessUm / 1000.0;
        return kind switch
        {
            ReadingKind.Floor => Around(floor, recipe.Limits.FloorMm),
            ReadingKind.Thickness => Around(thickness, recipe.Limits.ThicknessMm),
            ReadingKind.Relief => Around(thickness - floor, recipe.Limits.ReliefMm),
            ReadingKind.Lamps => ((int)Math.Round(recipe.BackExposure.ReferenceIrradianceMwPerCm2 * recipe.Limits.LampsPercent * 10), null),
            _ => (null, null),
        };
    }

    /// <summary>A length or an irradiance, in mm or mW/cm2.</summary>
    /// <exception cref="PlateRoomException">It cannot be such a reading at all.</exception>
    public static Finding Number(ReadingKind kind, double value, RecipeSettings recipe, Material material, LengthSystem units)
    {
        if (kind is ReadingKind.Floor or ReadingKind.Relief or ReadingKind.Thickness && !(value > 0 && value < 10))
        {
            throw new PlateRoomException($"A {kind.Title().ToLowerInvariant()} of {Numbers.ForPeople(value, 3)} mm cannot be: it lies between 0 and 10 mm. Check the figure and its unit.");
        }

        var (from, to) = Limits(kind, recipe, material);
        var whole = (int)Math.Round(value * 1000);
        var right = !(whole < from) && !(whole > to);
        var limits = Say(kind, from, to, units);
        return new(
            kind, right,
            $"{kind.Title()} {Show(kind, whole, units)} is {(right ? "within" : "out of")} its limits ({limits}).",
            whole, from, to);
    }

    public static Finding Lot(Sheet sheet, string lot)
    {
        var right = sheet.Lot.Length == 0 || ScanText.Clean(sheet.Lot) == ScanText.Clean(lot);
        return new(
            ReadingKind.Lot, right,
            sheet.Lot.Length == 0 ? $"Lot {lot} is noted; no lot was planned." : right ? $"Lot {sheet.Lot} is the planned one." : $"Lot {lot} was read, lot {sheet.Lot} is planned.",
            Text: lot);
    }

    /// <summary>What the eye found; no defect is in limits.</summary>
    public static Finding Visual(IReadOnlyCollection<PlateDefect> defects) => defects.Count == 0
        ? new(ReadingKind.Visual, true, "Nothing wrong was seen.", Text: "none")
        : new(ReadingKind.Visual, false, $"Seen: {Names(defects)}.", Text: Names(defects));

    /// <summary>"1.14 to 1.24 mm", "9 mW/cm² or more", or an empty string.</summary>
    public static string Say(ReadingKind kind, int? from, int? to, LengthSystem units) => (from, to) switch
    {
        ({ } low, { } high) => $"{Figure(kind, low, units)} to {Show(kind, high, units)}",
        ({ } low, null) => $"{Show(kind, low, units)} or more",
        (null, { } high) => $"{Show(kind, high, units)} or less",
        _ => "",
    };

    public static string Show(ReadingKind kind, int value, LengthSystem units) => kind == ReadingKind.Lamps
        ? $"{Numbers.ForPeople(value / 1000.0, 2)} mW/cm²"
        : units.Show(value / 1000.0, 3);

    private static string Figure(ReadingKind kind, int value, LengthSystem units) => kind == ReadingKind.Lamps
        ? Numbers.ForPeople(value / 1000.0, 2)
        : units.Figure(value / 1000.0, 3);

    private static string Names(IEnumerable<PlateDefect> defects) => string.Join(", ", defects.Order().Select(d => d.Title()));

    private static (int?, int?) Around(double mm, double plusMinus) => ((int)Math.Round((mm - plusMinus) * 1000), (int)Math.Round((mm + plusMinus) * 1000));
}
