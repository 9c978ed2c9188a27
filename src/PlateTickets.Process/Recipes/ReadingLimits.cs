namespace PlateTickets.Process.Recipes;

/// <summary>How far a reading may lie from its target. Editable in the recipe.</summary>
/// <param name="FloorMm">Floor against the recipe's floor, plus or minus in mm. With the relief's tolerance, since relief = thickness - floor.</param>
/// <param name="ThicknessMm">Total thickness against the material's, plus or minus in mm; 0.013 mm (0.0005 in) from memory.</param>
/// <param name="ReliefMm">Relief against thickness - floor, plus or minus in mm; 0.05 mm is half of the width of 0.018 to 0.022 in that the
/// Flexographic Technical Association names for plates of 0.045 and 0.067 in ("Plate to Print", flexography.org).</param>
/// <param name="LampsPercent">The least irradiance of a frame, in percent of the recipe's reference; 60, a judgement of this project from no source.</param>
public sealed record ReadingLimits(double FloorMm = 0.05, double ThicknessMm = 0.013, double ReliefMm = 0.05, double LampsPercent = 60);
