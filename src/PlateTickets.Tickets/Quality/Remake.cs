using PlateTickets.Process;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Tickets.Quality;

/// <summary>One plate that is made again: why, where it was caused, where it was found, and what it cost.</summary>
public sealed class Remake : IAudited
{
    public int Id { get; set; }

    public int TicketId { get; set; }

    public Ticket? Ticket { get; set; }

    /// <summary>The sheet that the spoilt plate lay on.</summary>
    public int SheetId { get; set; }

    public Sheet? Sheet { get; set; }

    public int PlateId { get; set; }

    public Plate? Plate { get; set; }

    public int NewPlateId { get; set; }

    public Plate? NewPlate { get; set; }

    public PlateDefect Defect { get; set; }

    public string Reason { get; set; } = "";

    /// <summary>Where it went wrong; null for outside of the plate room, such as the file or the press.</summary>
    public Station? CausedAt { get; set; }

    /// <summary>Where it was seen; null for outside of the plate room.</summary>
    public Station? FoundAt { get; set; }

    public DateTime AtUtc { get; set; }

    public required string By { get; set; }

    /// <summary>The material lost, in square micrometres: the plate, or its share of the whole sheet when that is given up.</summary>
    public long AreaUm2 { get; set; }

    /// <summary>The plate's share of the work that its sheet has cost so far, in seconds.</summary>
    public int SpentSeconds { get; set; }

    public string AuditKey => $"plate {PlateId} of ticket {TicketId}";
}
