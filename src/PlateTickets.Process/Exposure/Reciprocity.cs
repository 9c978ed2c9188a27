namespace PlateTickets.Process.Exposure;

/// <summary>
/// Dose = irradiance x time. Equal doses give equal curing as long as the irradiance is not very different
/// (exposure as intensity times time: PRINTING United Alliance glossary; dose: Killgore, NIST, UV+EB Technology 2023).
/// </summary>
public static class Reciprocity
{
    /// <summary>Dose in mJ/cm² of an irradiance in mW/cm² over a time in s; both 0 or more.</summary>
    /// <exception cref="PlateRoomException">A value is negative or no finite number.</exception>
    public static double DoseMjPerCm2(double irradianceMwPerCm2, double seconds) =>
        Guard.AtLeast(irradianceMwPerCm2, 0, "The irradiance", "mW/cm²") * Guard.AtLeast(seconds, 0, "The exposure time", "s");

    /// <summary>Time in s for a dose in mJ/cm² at an irradiance in mW/cm²; both above 0.</summary>
    /// <exception cref="PlateRoomException">A value is not above 0.</exception>
    public static double Seconds(double doseMjPerCm2, double irradianceMwPerCm2) =>
        Guard.Above(doseMjPerCm2, 0, "The dose", "mJ/cm²") / Guard.Above(irradianceMwPerCm2, 0, "The irradiance", "mW/cm²");

    /// <summary>Time in s at another irradiance that gives the same dose: t' = t I0 / I. All above 0.</summary>
    /// <exception cref="PlateRoomException">A value is not above 0.</exception>
    public static double ScaledSeconds(double seconds, double referenceMwPerCm2, double irradianceMwPerCm2) =>
        Guard.Above(seconds, 0, "The exposure time", "s")
        * Guard.Above(referenceMwPerCm2, 0, "The reference irradiance", "mW/cm²")
        / Guard.Above(irradianceMwPerCm2, 0, "The irradiance", "mW/cm²");
}
