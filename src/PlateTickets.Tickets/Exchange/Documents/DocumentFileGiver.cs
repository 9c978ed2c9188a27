using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>Reads the files that came with a document and puts them onto its ticket; the sheets are made when every colour is there.</summary>
internal sealed class DocumentFileGiver(IDbContextFactory<PlateRoomDb> databases, OrderEntry entry, DocumentShelf shelf)
{
    /// <returns>What became of them, and whether a person must look.</returns>
    public async Task<(string Sentence, bool Held)> GiveAsync(ReceivedDocument document, DocumentText text, string number, List<DocumentFile> files, CancellationToken cancel)
    {
        HashSet<string> present;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            present = (await db.Separations.Where(s => s.TicketId == document.OrderId).Select(s => s.Colour).ToListAsync(cancel)).ToHashSet(StringComparer.OrdinalIgnoreCase);
        }

        var read = new List<ReadSeparation>();
        var wrong = new List<string>();
        foreach (var file in files.Where(f => !present.Contains(f.Colour)))
        {
            try
            {
                read.Add(await ReadAsync(file, text.Answers, cancel));
            }
            catch (Exception refused) when (refused is SeparationException or IOException)
            {
                wrong.Add($"{file.FileName}: {refused.Message}");
            }
        }

        if (wrong.Count > 0)
        {
            return (string.Join(" ", wrong), true);
        }

        var wanted = XjdfReader.Read(text.Xjdf).Plates.Select(p => p.Colour).Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        var missing = wanted.Where(w => !present.Contains(w) && !files.Exists(f => f.Colour.Equals(w, StringComparison.OrdinalIgnoreCase))).ToList();
        try
        {
            await entry.AddSeparationsAsync(number, read, document.Sender, layOut: missing.Count == 0, cancel: cancel);
            return (missing.Count == 0 ? "Entered with its files." : $"Entered with its files; {string.Join(", ", missing)} {(missing.Count == 1 ? "follows" : "follow")}.", false);
        }
        catch (OrderRefusedException refused)
        {
            return (string.Join(" ", refused.Errors.Values), true);
        }
        catch (PlateRoomException refused)
        {
            return (refused.Message, true);
        }
    }

    private Task<ReadSeparation> ReadAsync(DocumentFile file, DocumentAnswers answers, CancellationToken cancel) => Task.Run(
        () =>
        {
            using var stream = File.OpenRead(shelf.PathOf(file.Sha256));
            var facts = SeparationReader.Read(stream, file.FileName, null, cancel);
            return new ReadSeparation(facts with { Colour = file.Colour, ColourFrom = ColourSource.Order }, file.Sha256, file.Bytes, answers.FilesAccepted);
        },
        cancel);
}
