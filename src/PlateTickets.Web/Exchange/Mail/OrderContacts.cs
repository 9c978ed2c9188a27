using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Sheets;

namespace PlateTickets.Web.Exchange.Mail;

/// <summary>Who is told of an order at the customer's, and what the customer calls it.</summary>
public sealed class OrderContacts(IDbContextFactory<PlateRoomDb> databases)
{
    public const int LongestReference = 100;

    /// <param name="number">The ticket's number.</param>
    /// <param name="mail">One mail address; empty tells nobody.</param>
    /// <param name="reference">Such as a purchase order's number; may be empty.</param>
    /// <param name="by">Who.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">There is no such order, the address is none, or somebody else changed the order meanwhile.</exception>
    public async Task SetAsync(string number, string mail, string reference, string by, CancellationToken cancel = default)
    {
        (mail, reference) = (mail.Trim(), reference.Trim());
        if (mail.Length > 0 && !MailAddress.IsOne(mail))
        {
            throw new PlateRoomException($"“{mail}” is not one mail address. Type it as name@company.example, without other words, or leave it empty.");
        }

        if (reference.Length > LongestReference || reference.Any(char.IsControl))
        {
            throw new PlateRoomException($"The customer’s reference must be one line of at most {LongestReference} characters.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var order = await db.Orders.SingleOrDefaultAsync(o => o.Number == number, cancel)
            ?? throw new PlateRoomException($"There is no order {TrackingNumber.ForPeople(number)}.");
        (order.ContactMail, order.CustomerReference) = (mail, reference);
        try
        {
            await db.SaveChangesAsync(cancel);
        }
        catch (DbUpdateConcurrencyException)
        {
            throw new PlateRoomException("Somebody else changed this order a moment ago. Look at it again; your change was not saved.");
        }
    }
}
