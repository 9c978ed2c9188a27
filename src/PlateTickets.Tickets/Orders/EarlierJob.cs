namespace PlateTickets.Tickets.Orders;

/// <summary>A ticket that was made from the same files before.</summary>
public sealed record EarlierJob(
    string Number, int CustomerId, string Customer, string Title, int PressId, int RepeatUm, int MaterialId, int Copies, DateTime EnteredUtc, int SameFiles);
