using PlateTickets.Process;

namespace PlateTickets.Web.Orders;

/// <summary>Ink coverage for people.</summary>
internal static class InkText
{
    /// <summary>"12.4 %"; a little ink is never shown as none.</summary>
    public static string Percent(double coverage) =>
        coverage is > 0 and < 0.0005 ? "under 0.1\u00a0%" : $"{Numbers.ForPeople(coverage * 100)}\u00a0%";

    /// <summary>"72.5 cm²" of one plate.</summary>
    public static string Area(double coverage, double widthMm, double lengthMm) => $"{Numbers.ForPeople(coverage * widthMm * lengthMm / 100)}\u00a0cm²";
}
