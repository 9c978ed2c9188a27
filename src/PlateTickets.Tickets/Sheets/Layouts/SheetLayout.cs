using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Sheets.Layouts;

/// <summary>Sheets that were released together from the layout page. It can be undone until the first of them is scanned.</summary>
public sealed class SheetLayout : IAudited
{
    public int Id { get; set; }

    public int MaterialId { get; set; }

    public DateTime ReleasedUtc { get; set; }

    public required string ReleasedBy { get; set; }

    public DateTime? UndoneUtc { get; set; }

    public string UndoneBy { get; set; } = "";

    public List<Sheet> Sheets { get; set; } = [];

    public string AuditKey => $"layout {Id}";
}
