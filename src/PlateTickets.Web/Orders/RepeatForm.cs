using PlateTickets.Process;
using PlateTickets.Process.Distortion;
using PlateTickets.Process.Units;

namespace PlateTickets.Web.Orders;

public enum RepeatBasis
{
    Repeat,
    TeethAndPitch,
    TeethAndModule,
    BareCylinder,
}

/// <summary>A repeat typed by hand: as it is, by gear teeth, or by the bare cylinder with tape and plate. Lengths with their units, as text.</summary>
public sealed class RepeatForm
{
    public RepeatBasis Basis { get; set; }

    public string Repeat { get; set; } = "";

    public int Teeth { get; set; } = 120;

    /// <summary>Circular pitch of a tooth; 1/8 in is usual in the trade.</summary>
    public string Pitch { get; set; } = "0.125 in";

    public string Module { get; set; } = "1 mm";

    public string Diameter { get; set; } = "";

    public string Tape { get; set; } = "0.55 mm";

    /// <summary>Nothing is typed yet, so there is nothing to refuse.</summary>
    public bool IsEmpty => Basis switch
    {
        RepeatBasis.Repeat => Repeat.Trim().Length == 0,
        RepeatBasis.BareCylinder => Diameter.Trim().Length == 0,
        _ => Teeth == 0,
    };

    /// <summary>The repeat in mm on a plate of this thickness.</summary>
    /// <exception cref="PlateRoomException">Something typed is no length, or cannot be.</exception>
    public double Millimetres(double plateThicknessMm, LengthSystem bare = LengthSystem.Metric) => Basis switch
    {
        RepeatBasis.TeethAndPitch => PlateDistortion.RepeatFromPitchMm(Teeth, LengthText.Millimetres(Pitch, "The circular pitch", bare)),
        RepeatBasis.TeethAndModule => PlateDistortion.RepeatFromModuleMm(Teeth, LengthText.Millimetres(Module, "The module")),
        RepeatBasis.BareCylinder => PlateDistortion.RepeatFromCylinderMm(
            LengthText.Millimetres(Diameter, "The diameter of the bare cylinder", bare), LengthText.Millimetres(Tape, "The tape", bare), plateThicknessMm),
        _ => LengthText.Millimetres(Repeat, "The repeat", bare),
    };
}
