using System.Globalization;

namespace PlateTickets.Planning.Nesting;

/// <summary>Refuses sizes that no sheet can have, in a sentence that says which and what to do.</summary>
internal static class NestCheck
{
    // No raw sheet is a hundred metres long: such a number is in another unit.
    private const long Most = 100_000_000;

    public static void Refuse(IReadOnlyList<NestPlate> plates, IReadOnlyList<NestStock> stocks, NestRules rules)
    {
        foreach (var plate in plates)
        {
            RefuseSize($"plate {plate.Id}", plate.Across, plate.Around);
        }

        foreach (var stock in stocks)
        {
            RefuseSize($"stock size {stock.Id}", stock.Width, stock.Length);
        }

        RefuseRim("gap between plates", rules.Gap);
        RefuseRim("clamp margin", rules.ClampMargin);
        RefuseRim("side margin", rules.SideMargin);
    }

    private static void RefuseSize(FormattableString what, long width, long length)
    {
        if (width is < 1 or > Most || length is < 1 or > Most)
        {
            throw new ArgumentException(string.Create(
                CultureInfo.InvariantCulture,
                $"The size of {what.ToString(CultureInfo.InvariantCulture)} is {width / 1000.0} x {length / 1000.0} mm: each side must be above 0 and at most 100 m, so check the size and its unit."));
        }
    }

    private static void RefuseRim(string what, long size)
    {
        if (size is < 0 or > Most)
        {
            throw new ArgumentException(string.Create(
                CultureInfo.InvariantCulture, $"The {what} is {size / 1000.0} mm: it must be 0 or more and at most 100 m, so check it and its unit."));
        }
    }
}
