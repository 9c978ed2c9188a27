namespace PlateTickets.Tickets.Sheets.Layouts;

/// <summary>A plate without a sheet: micrometres, across the print and around the cylinder.</summary>
public sealed record WaitingPlate(
    int PlateId, int TicketId, string TicketNumber, string Customer, string Title, DateTime DueUtc, double Weight, int MaterialId, int SeparationId,
    string Colour, int Copy, int Copies, int WidthUm, int LengthUm)
{
    /// <summary>The colour, and which copy when there are several.</summary>
    public string Label => Copies > 1 ? $"{Colour} (copy {Copy})" : Colour;
}
