using PlateTickets.Process;
using PlateTickets.Process.Distortion;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Recipes;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Web.Orders;

/// <summary>The distortion in sentences for the CSR.</summary>
internal static class LengthAdvice
{
    /// <summary>What the files must be: factor and flat length.</summary>
    /// <exception cref="PlateRoomException">The repeat is too short for the plate.</exception>
    public static string Expected(double repeatMm, Material material, LengthSystem units)
    {
        var (thickness, filmBase) = Millimetres(material);
        var flat = PlateDistortion.FlatLengthMm(repeatMm, thickness, filmBase);
        var factor = PlateDistortion.Factor(repeatMm, thickness, filmBase);
        return $"Distortion {Numbers.ForPeople(factor * 100, 3)} % around the cylinder: flat length {units.Show(flat)} = repeat {units.Show(repeatMm, 3)} − K {units.Show(repeatMm - flat, 3)} "
            + $"(plate {units.Thickness(thickness)}, base {units.Show(filmBase, 3)}).";
    }

    /// <summary>What the length of a file looks like.</summary>
    public static string For(double measuredMm, double repeatMm, Material material, Room room, LengthSystem units)
    {
        var (thickness, filmBase) = Millimetres(material);
        try
        {
            return LengthCheck.Of(measuredMm, repeatMm, thickness, filmBase, room.Materials.Values.Where(m => m.Id != material.Id).Select(Millimetres), units: units).Sentence;
        }
        catch (PlateRoomException refused)
        {
            return refused.Message;
        }
    }

    private static (double Thickness, double Base) Millimetres(Material material) => (material.ThicknessUm / 1000.0, material.BaseUm / 1000.0);
}
