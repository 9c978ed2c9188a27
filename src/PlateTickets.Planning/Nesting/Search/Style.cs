namespace PlateTickets.Planning.Nesting.Search;

/// <summary>One way of laying plates out; which one serves best differs from set to set.</summary>
internal readonly record struct Style(bool SheetBySheet, int Fit, SplitRule Split, Posture Posture, int Measure)
{
    public static Style Drawn(ref SplitMix random) => new(
        random.Below(4) == 0, random.Below(5), (SplitRule)random.Below(6), (Posture)random.Below(3), random.Below(PlateOrder.Measures));
}
