using System.Globalization;

namespace PlateTickets.Process.Distortion;

/// <summary>
/// The relief stretches when the plate is bent round its cylinder; the polyester base does not. The image is made
/// shorter by as much. All lengths in mm. Exact when the base is the neutral layer (common practice).
/// </summary>
public static class PlateDistortion
{
    /// <summary>K = 2π (plate thickness - base thickness), in mm: by how much the flat image is shorter than the repeat.</summary>
    /// <exception cref="PlateRoomException">A thickness is not above 0 (base: 0 or more), or the base is not thinner than the plate.</exception>
    public static double KMm(double plateThicknessMm, double baseThicknessMm)
    {
        Guard.Above(plateThicknessMm, 0, "The plate thickness", "mm");
        if (double.IsNaN(baseThicknessMm) || baseThicknessMm < 0 || baseThicknessMm >= plateThicknessMm)
        {
            throw new PlateRoomException(string.Create(
                CultureInfo.InvariantCulture,
                $"The base ({baseThicknessMm:0.###} mm) must be thinner than the plate ({plateThicknessMm:0.###} mm): check the material."));
        }

        return 2 * Math.PI * (plateThicknessMm - baseThicknessMm);
    }

    /// <summary>Flat length of a full repeat in mm: repeat - K.</summary>
    /// <exception cref="PlateRoomException">The repeat is not longer than K.</exception>
    public static double FlatLengthMm(double repeatMm, double plateThicknessMm, double baseThicknessMm)
    {
        var k = KMm(plateThicknessMm, baseThicknessMm);
        Guard.Above(repeatMm, 0, "The repeat", "mm");
        if (repeatMm <= k)
        {
            throw new PlateRoomException(string.Create(
                CultureInfo.InvariantCulture,
                $"A repeat of {repeatMm:0.###} mm is too short for a plate of {plateThicknessMm:0.###} mm (K is {k:0.###} mm): check the cylinder and its unit."));
        }

        return repeatMm - k;
    }

    /// <summary>The factor by which the image is made shorter around the cylinder: 1 - K / repeat; above 0, below or at 1.</summary>
    public static double Factor(double repeatMm, double plateThicknessMm, double baseThicknessMm) =>
        FlatLengthMm(repeatMm, plateThicknessMm, baseThicknessMm) / repeatMm;

    /// <summary>Repeat in mm from gear teeth and circular pitch in mm (1/8 in = 3.175 mm).</summary>
    public static double RepeatFromPitchMm(int teeth, double circularPitchMm)
    {
        Guard.Above(teeth, 0, "The number of teeth", "");
        Guard.Above(circularPitchMm, 0, "The circular pitch", "mm");
        return teeth * circularPitchMm;
    }

    /// <summary>Repeat in mm from gear teeth and metric module in mm: π x module x teeth.</summary>
    public static double RepeatFromModuleMm(int teeth, double moduleMm)
    {
        Guard.Above(teeth, 0, "The number of teeth", "");
        Guard.Above(moduleMm, 0, "The module", "mm");
        return Math.PI * moduleMm * teeth;
    }

    /// <summary>Repeat in mm from the bare cylinder's diameter, the tape and the plate: π (d + 2 (tape + plate)).</summary>
    public static double RepeatFromCylinderMm(double bareDiameterMm, double tapeMm, double plateThicknessMm)
    {
        Guard.Above(bareDiameterMm, 0, "The diameter of the bare cylinder", "mm");
        Guard.AtLeast(tapeMm, 0, "The tape thickness", "mm");
        Guard.Above(plateThicknessMm, 0, "The plate thickness", "mm");
        return Math.PI * (bareDiameterMm + (2 * (tapeMm + plateThicknessMm)));
    }
}
