using PlateTickets.Process;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Recipes;

/// <summary>A plate material: a photopolymer sheet on a polyester base. Lengths in micrometres.</summary>
public sealed class Material : IAudited
{
    public int Id { get; set; }

    public required string Name { get; set; }

    /// <summary>Total thickness, base included.</summary>
    public int ThicknessUm { get; set; }

    /// <summary>Thickness of the polyester base, which does not stretch: it decides the distortion.</summary>
    public int BaseUm { get; set; }

    public WashoutProcess Process { get; set; }

    public string AuditKey => Name;

    /// <summary>"Aster 170 · 1.70 mm · solvent", or with the thickness in inches.</summary>
    public string Label(LengthSystem units) => $"{Name} · {units.Thickness(ThicknessUm / 1000.0)} · {ProcessName}";

    private string ProcessName => Process switch
    {
        WashoutProcess.Solvent => "solvent",
        WashoutProcess.Water => "water-wash",
        _ => "thermal",
    };
}
