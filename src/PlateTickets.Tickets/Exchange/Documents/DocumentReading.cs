using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>Reads a kept document with the eyes of the room as it is now.</summary>
internal sealed class DocumentReading(RoomCatalog rooms, TimeProvider clock)
{
    /// <summary>The order as far as it is known, what is asked, the files that wait, and the room that it was looked at with.</summary>
    public async Task<(DocumentReview Review, List<DocumentFile> Files, Room Room)> ReviewAsync(PlateRoomDb db, ReceivedDocument document, DocumentText text, CancellationToken cancel)
    {
        var read = XjdfReader.Read(text.Xjdf);
        var room = await rooms.GetAsync(cancel);
        var (company, answered, customerId) = (read.CustomerName, text.Answers.NewCustomer, read.CustomerId);
        var customers = await db.Customers.AsNoTracking().Where(c => c.Name == company || c.Name == answered || c.Name == customerId).ToDictionaryAsync(c => c.Name, c => c.Id, cancel);
        string[] texts = [read.CustomerId, read.CustomerName, read.Press, read.Material, read.Brand];
        var known = await db.KnownNames.AsNoTracking().Where(n => texts.Contains(n.Text)).ToDictionaryAsync(n => (n.Kind, n.Text), n => n.MeansId, cancel);
        var files = await db.DocumentFiles.AsNoTracking().Where(f => f.DocumentId == document.Id).OrderBy(f => f.Id).ToListAsync(cancel);
        var review = DocumentReviewer.Review(read, text.Answers, room, new(customers, known), clock.GetUtcNow().UtcDateTime);
        return (review with { Notes = [.. review.Notes, .. Elsewhere(document, read, files)] }, files, room);
    }

    private static IEnumerable<string> Elsewhere(ReceivedDocument document, OrderDocument read, List<DocumentFile> files)
    {
        if (document.State is DocumentState.Done or DocumentState.SetAside)
        {
            yield break;
        }

        foreach (var plate in read.Plates.Where(p => p.FileUrl.Length > 0 && !files.Exists(f => f.Url == p.FileUrl)))
        {
            yield return $"The file of {plate.Colour} lies at {plate.FileUrl.Cut(100)}, outside of what was sent. Nothing is fetched from there: the file follows.";
        }
    }
}
