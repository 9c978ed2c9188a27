using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Recipes;

/// <summary>Which lamps of a frame were read.</summary>
public enum LampBank
{
    Back = 1,
    Face = 2,
}

/// <summary>One radiometer reading; readings are added, never changed.</summary>
public sealed class LampReadingEntry : IAudited
{
    public int Id { get; set; }

    public int EquipmentId { get; set; }

    public LampBank Bank { get; set; }

    /// <summary>UV-A irradiance in mW/cm².</summary>
    public double IrradianceMwPerCm2 { get; set; }

    public DateTime ReadUtc { get; set; }

    public required string ReadBy { get; set; }

    public string AuditKey => $"equipment {EquipmentId}, {Bank} lamps";
}
