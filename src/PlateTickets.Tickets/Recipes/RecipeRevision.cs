using PlateTickets.Process.Recipes;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Recipes;

public enum RecipeState
{
    Draft = 1,
    Released = 2,
    Withdrawn = 3,
}

/// <summary>A numbered revision of a material's recipe. Never overwritten; a sheet keeps the revision that it was made with.</summary>
public sealed class RecipeRevision : IAudited
{
    public int Id { get; set; }

    public int MaterialId { get; set; }

    public Material? Material { get; set; }

    /// <summary>1, 2, 3 ... within the material.</summary>
    public int Number { get; set; }

    public RecipeState State { get; set; }

    public required RecipeSettings Settings { get; set; }

    public DateTime ReleasedUtc { get; set; }

    public required string ReleasedBy { get; set; }

    /// <summary>The step test that its back exposure time comes from, if it does.</summary>
    public int? StepTestId { get; set; }

    /// <summary>What must be answered with a reason before it is released, such as a time outside what was tested; mostly empty.</summary>
    public string Doubt { get; set; } = "";

    /// <summary>Why this revision was made.</summary>
    public string Note { get; set; } = "";

    public string AuditKey => $"material {MaterialId}, revision {Number}";
}
