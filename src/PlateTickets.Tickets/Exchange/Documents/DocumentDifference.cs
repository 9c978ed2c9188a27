using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>One thing that another form of a document makes different.</summary>
/// <param name="What">In words: "Due".</param>
/// <param name="Before">As the order is.</param>
/// <param name="After">As the document wants it.</param>
/// <param name="MakesNewPlates">It cannot be done to plates that are laid out: the order is cancelled and entered anew.</param>
public sealed record DocumentChange(string What, string Before, string After, bool MakesNewPlates);

/// <summary>What another form of a document changes of its order.</summary>
/// <param name="Changes">Empty when the order is that already.</param>
/// <param name="Exposed">Plates of it are exposed, or at least begun: a sheet of it was at a station.</param>
public sealed record DocumentDifference(IReadOnlyList<DocumentChange> Changes, bool Exposed)
{
    public bool MakesNewPlates => Changes.Any(c => c.MakesNewPlates);

    /// <summary>May it be made without a person?</summary>
    public bool IsSmall => !Exposed && !MakesNewPlates;

    /// <summary>Compares an order with what a document wants.</summary>
    internal static async Task<DocumentDifference> OfAsync(PlateRoomDb db, Room room, int orderId, DocumentReview review, IReadOnlyList<DocumentFile> files, CancellationToken cancel)
    {
        var order = await db.Orders.AsNoTracking().Include(o => o.Customer).Include(o => o.Press).Include(o => o.Material).Include(o => o.Ticket!.Separations)
            .AsSplitQuery().SingleAsync(o => o.Id == orderId, cancel);
        var wanted = review.Order;
        var changes = new List<DocumentChange>();
        var customer = wanted.CustomerId != 0 ? await db.Customers.Where(c => c.Id == wanted.CustomerId).Select(c => c.Name).FirstOrDefaultAsync(cancel) ?? "" : wanted.NewCustomer;
        var known = review.Questions.Select(q => q.Kind).ToHashSet();
        Add("Customer", order.Customer!.Name, customer, true, known.Contains(QuestionKind.Customer));
        Add("Title", order.Title, wanted.Title, false);
        Add("Customer's order", order.CustomerReference, wanted.CustomerReference, false);
        Add("Tell by mail", order.ContactMail, wanted.ContactMail, false);
        Add("Due", SiteClock.MomentWithYear(order.DueUtc, room.Zone), SiteClock.MomentWithYear(wanted.DueUtc, room.Zone), false, known.Contains(QuestionKind.Due));
        Add("Copies", $"{order.Copies}", $"{wanted.Copies}", false, known.Contains(QuestionKind.Copies));
        if (!known.Contains(QuestionKind.Press) && !known.Contains(QuestionKind.Cylinder) && !known.Contains(QuestionKind.Material))
        {
            Add("Press", order.Press!.Name, room.Presses.First(p => p.Id == wanted.PressId).Name, true);
            Add("Repeat", Mm(order.RepeatUm), Mm(OrderRules.RepeatUm(wanted, room)), true);
            Add("Material", order.Material!.Name, room.Materials[OrderRules.MaterialId(wanted, room)].Name, true);
        }

        Colours(order.Ticket!.Separations, review, files, changes);
        var exposed = await db.Stages.AnyAsync(s => s.StartedUtc != null && db.Placements.Where(p => p.Plate!.TicketId == orderId).Select(p => p.SheetId).Contains(s.SheetId), cancel);
        return new(changes, exposed);

        void Add(string what, string before, string after, bool makesNewPlates, bool asked = false)
        {
            if (!asked && before != after)
            {
                changes.Add(new(what, before.Length == 0 ? "none" : before, after.Length == 0 ? "none" : after, makesNewPlates));
            }
        }
    }

    // A ticket that still waits for its files has no plates that could be changed: more colours are only more files.
    private static void Colours(List<Separation> there, DocumentReview review, IReadOnlyList<DocumentFile> files, List<DocumentChange> changes)
    {
        var wanted = review.Document.Plates.Select(p => p.Colour).Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        var has = there.Select(s => s.Colour).ToHashSet(StringComparer.OrdinalIgnoreCase);
        if (there.Count > 0)
        {
            changes.AddRange(wanted.Where(w => !has.Contains(w)).Select(w => new DocumentChange("Colour", "none", w, true)));
            changes.AddRange(there.Where(s => !wanted.Contains(s.Colour, StringComparer.OrdinalIgnoreCase)).Select(s => new DocumentChange("Colour", s.Colour, "none", true)));
        }

        foreach (var file in files)
        {
            if (there.Find(s => s.Colour.Equals(file.Colour, StringComparison.OrdinalIgnoreCase)) is { } separation && separation.Sha256 != file.Sha256)
            {
                changes.Add(new($"File of {separation.Colour}", separation.FileName, $"{file.FileName}, another content", true));
            }
        }
    }

    private static string Mm(int um) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{um / 1000.0:0.###} mm");
}
