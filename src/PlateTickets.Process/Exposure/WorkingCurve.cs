namespace PlateTickets.Process.Exposure;

/// <summary>
/// The working curve of a photopolymer: cured depth = Dp ln(E / Ec), 0 at and below Ec
/// (P. F. Jacobs' equation, as in Gibson, Rosen and Stucker, Additive Manufacturing Technologies). For back exposure the
/// cured depth is the floor above the base.
/// </summary>
/// <param name="DpMm">Penetration depth in mm, above 0: doubling the dose adds Dp ln 2.</param>
/// <param name="EcMjPerCm2">Critical dose in mJ/cm², above 0: below it nothing cures.</param>
public sealed record WorkingCurve(double DpMm, double EcMjPerCm2)
{
    public double DpMm { get; } = Guard.Above(DpMm, 0, "The penetration depth Dp", "mm");

    public double EcMjPerCm2 { get; } = Guard.Above(EcMjPerCm2, 0, "The critical dose Ec", "mJ/cm²");

    /// <summary>Cured depth in mm of a dose in mJ/cm² (0 or more).</summary>
    /// <exception cref="PlateRoomException">The dose is negative or no finite number.</exception>
    public double DepthMm(double doseMjPerCm2)
    {
        Guard.AtLeast(doseMjPerCm2, 0, "The dose", "mJ/cm²");
        return doseMjPerCm2 <= EcMjPerCm2 ? 0 : DpMm * Math.Log(doseMjPerCm2 / EcMjPerCm2);
    }

    /// <summary>Dose in mJ/cm² that cures a depth in mm (0 or more).</summary>
    /// <exception cref="PlateRoomException">The depth is negative, no finite number, or needs a dose beyond any lamp.</exception>
    public double DoseMjPerCm2(double depthMm)
    {
        var dose = EcMjPerCm2 * Math.Exp(Guard.AtLeast(depthMm, 0, "The wanted depth", "mm") / DpMm);
        return double.IsFinite(dose)
            ? dose
            : throw new PlateRoomException($"A depth of {Numbers.ForPeople(depthMm, 2)} mm is far beyond this curve (Dp {Numbers.ForPeople(DpMm, 3)} mm): check its unit.");
    }
}
