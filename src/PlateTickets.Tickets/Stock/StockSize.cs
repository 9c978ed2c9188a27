using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Recipes;

namespace PlateTickets.Tickets.Stock;

/// <summary>A size in which raw sheets of a material are bought: micrometres; width lies along the drum axis, length around it.</summary>
public sealed class StockSize : IAudited
{
    public int Id { get; set; }

    public int MaterialId { get; set; }

    public Material? Material { get; set; }

    public int WidthUm { get; set; }

    public int LengthUm { get; set; }

    /// <summary>Below so many free sheets somebody should order; 0 for no warning.</summary>
    public int LeastSheets { get; set; }

    public List<StockLot> Lots { get; set; } = [];

    public string AuditKey => $"{Material?.Name ?? $"material {MaterialId}"}, {WidthUm / 1000} × {LengthUm / 1000} mm";
}
