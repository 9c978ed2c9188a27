using PlateTickets.Process.Exposure;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Recipes;

/// <summary>A back exposure step test as it was measured. Added, never changed.</summary>
public sealed class StepTestEntry : IAudited
{
    public int Id { get; set; }

    public int MaterialId { get; set; }

    public Material? Material { get; set; }

    public int EquipmentId { get; set; }

    /// <summary>The lot of the sheet that was exposed.</summary>
    public string Lot { get; set; } = "";

    /// <summary>The frame's back lamps at the test, mW/cm².</summary>
    public double IrradianceMwPerCm2 { get; set; }

    public DateTime MadeUtc { get; set; }

    public required string MadeBy { get; set; }

    public List<StepTestStep> Steps { get; set; } = [];

    public string AuditKey => $"material {MaterialId}, equipment {EquipmentId}, {MadeUtc:yyyy-MM-dd}";

    public StepTest ToTest(Material material) => new(
        IrradianceMwPerCm2, material.ThicknessUm / 1000.0, material.BaseUm / 1000.0, [.. Steps.Select(s => new StepTestPoint(s.Seconds, s.FloorMm))]);
}

/// <summary>One step: time in s and measured floor in mm, base included.</summary>
public sealed class StepTestStep
{
    public double Seconds { get; set; }

    public double FloorMm { get; set; }
}
