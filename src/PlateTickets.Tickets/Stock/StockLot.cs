using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Stock;

/// <summary>A delivery of sheets of one size. A size without any lot is not counted: its sheets are taken to be always there.</summary>
public sealed class StockLot : IAudited, IVersioned
{
    public int Id { get; set; }

    public int StockSizeId { get; set; }

    public StockSize? StockSize { get; set; }

    /// <summary>The maker's number on the box.</summary>
    public required string Lot { get; set; }

    /// <summary>Sheets that no layout has taken yet.</summary>
    public int Sheets { get; set; }

    public DateTime ReceivedUtc { get; set; }

    /// <summary>The last day on which it may be used; null when the box names none.</summary>
    public DateOnly? ExpiresOn { get; set; }

    public int Version { get; set; }

    public string AuditKey => $"lot {Lot}";

    public bool IsGoodOn(DateOnly day) => ExpiresOn is not { } last || day <= last;
}
