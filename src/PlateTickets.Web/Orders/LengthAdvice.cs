using System.Globalization;
using PlateTickets.Process;
using PlateTickets.Process.Distortion;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Orders;

/// <summary>The distortion in sentences for the CSR.</summary>
internal static class LengthAdvice
{
    /// <summary>What the files must be: factor and flat length.</summary>
    /// <exception cref="PlateRoomException">The repeat is too short for the plate.</exception>
    public static string Expected(double repeatMm, Material material)
    {
        var (thickness, filmBase) = Millimetres(material);
        var flat = PlateDistortion.FlatLengthMm(repeatMm, thickness, filmBase);
        var factor = PlateDistortion.Factor(repeatMm, thickness, filmBase);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Distortion {factor * 100:0.000} % around the cylinder: flat length {flat:0.0} mm = repeat {repeatMm:0.###} mm − K {repeatMm - flat:0.000} mm (plate {thickness:0.00} mm, base {filmBase:0.000} mm).");
    }

    /// <summary>What the length of a file looks like.</summary>
    public static string For(double measuredMm, double repeatMm, Material material, Room room)
    {
        var (thickness, filmBase) = Millimetres(material);
        try
        {
            return LengthCheck.Of(measuredMm, repeatMm, thickness, filmBase, room.Materials.Values.Where(m => m.Id != material.Id).Select(Millimetres)).Sentence;
        }
        catch (PlateRoomException refused)
        {
            return refused.Message;
        }
    }

    private static (double Thickness, double Base) Millimetres(Material material) => (material.ThicknessUm / 1000.0, material.BaseUm / 1000.0);
}
