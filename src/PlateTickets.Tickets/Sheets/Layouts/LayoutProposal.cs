using PlateTickets.Planning.Nesting;
using PlateTickets.Tickets.Stations;
using PlateTickets.Tickets.Stock;

namespace PlateTickets.Tickets.Sheets.Layouts;

/// <summary>What the person at the layout page may choose.</summary>
/// <param name="Copies">Where copies of one separation lie.</param>
/// <param name="DueHoursApart">Tickets that share a sheet are due at most so many hours apart; null for no limit.</param>
public sealed record LayoutWishes(CopyRule Copies, int? DueHoursApart);

/// <summary>Turns waiting plates into the nesting's question.</summary>
public static class LayoutProposal
{
    public static IReadOnlyList<NestPlate> PlatesOf(IEnumerable<WaitingPlate> plates) => [.. plates.Select(p =>
        new NestPlate(p.PlateId, p.WidthUm, p.LengthUm) { Set = p.TicketId, Separation = p.SeparationId, Due = p.DueUtc.Ticks / TimeSpan.TicksPerMinute })];

    public static NestRules Rules(Room room, LayoutWishes wishes) => room.NestRules with
    {
        Copies = wishes.Copies,
        DueApart = wishes.DueHoursApart is { } hours ? hours * 60L : long.MaxValue,
    };

    public static NestResult Make(Room room, Shelf shelf, IEnumerable<WaitingPlate> plates, LayoutWishes wishes) =>
        shelf.Lay(PlatesOf(plates), Rules(room, wishes));
}
