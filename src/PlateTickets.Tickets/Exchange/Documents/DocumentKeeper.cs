using System.Security.Cryptography;
using System.Xml.Linq;
using Microsoft.EntityFrameworkCore;
using PlateTickets.Tickets.Database;
using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>Keeps a document as it came, as a new job or as another form of one that is here.</summary>
internal sealed class DocumentKeeper(IDbContextFactory<PlateRoomDb> databases, DocumentShelf shelf, TimeProvider clock)
{
    /// <returns>Its id, or that of the same document which came before.</returns>
    /// <exception cref="DocumentRefusedException">It changes a job that is not here.</exception>
    public async Task<(int Id, bool Repeated)> KeepAsync(DocumentArrival arrival, OrderDocument? complete, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = arrival.Sender;
        await using var transaction = await db.BeginWriteAsync(cancel);
        var job = await LatestAsync(db, arrival, complete, cancel);
        var (bytes, part) = complete is null ? (await MergedAsync(db, job!, arrival, cancel), arrival.Xjdf) : (arrival.Xjdf, null);
        var read = complete ?? XjdfReader.Read(bytes);

        var sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes));
        // What a person set aside and comes again is meant.
        if (job is { State: not DocumentState.SetAside } && job.Sha256 == sha256 && await SameFilesAsync(db, job, arrival, cancel))
        {
            return (job.Id, true);
        }

        var waits = job is { State: DocumentState.Held or DocumentState.Taken };
        var document = new ReceivedDocument
        {
            Door = arrival.Door,
            Purpose = job?.OrderId is null ? DocumentPurpose.Order : DocumentPurpose.Change,
            State = DocumentState.Taken,
            Sender = arrival.Sender,
            FileName = arrival.FileName.Cut(200),
            JobId = read.JobId,
            JobPartId = read.JobPartId,
            Title = (read.CustomerJobName.Length > 0 ? read.CustomerJobName : read.Title).Cut(200),
            Sha256 = sha256,
            ReceivedUtc = clock.GetUtcNow().UtcDateTime,
            OrderId = job?.OrderId,
            FirstId = job is null ? null : job.FirstId ?? job.Id,
            ReturnUrl = arrival.ReturnUrl.Length > 0 ? arrival.ReturnUrl : job?.ReturnUrl ?? "",
            Priority = arrival.Priority ?? read.Priority,
            StartsHeld = arrival.StartsHeld || (job is { StartsHeld: true, OrderId: null }),
        };
        var answers = job is null ? new() : Carried(await db.DocumentTexts.AsNoTracking().SingleAsync(t => t.DocumentId == job.Id, cancel), read);
        var files = FilesOf(document, read, arrival.Files);
        document.FilesOpen = files.Count;
        db.ReceivedDocuments.Add(document);
        db.DocumentFiles.AddRange(files);
        await db.SaveChangesAsync(cancel);
        if (waits)
        {
            // Answers to the older form would come too late. Its files are the newer one's, where that names them again and did not bring them.
            (job!.State, job.Sentence, job.FilesOpen) = (DocumentState.SetAside, "A newer form of this document came.", 0);
            foreach (var kept in await db.DocumentFiles.Where(f => f.DocumentId == job.Id).ToListAsync(cancel))
            {
                if (read.Plates.FirstOrDefault(p => p.FileUrl == kept.Url) is { } plate && !files.Exists(f => f.Url == kept.Url))
                {
                    (kept.DocumentId, kept.Colour) = (document.Id, plate.Colour);
                    document.FilesOpen++;
                }
            }

            await db.SaveChangesAsync(cancel);
            await shelf.ForgetOfAsync(db, job.Id, cancel);
        }

        db.DocumentTexts.Add(new DocumentText { DocumentId = document.Id, Xjdf = bytes, Xjmf = arrival.Xjmf, Part = part, Answers = answers });
        await db.SaveChangesAsync(cancel);
        await transaction.CommitAsync(cancel);
        return (document.Id, false);
    }

    // By the queue entry that it names, or by the sender's own name of the job.
    private static async Task<ReceivedDocument?> LatestAsync(PlateRoomDb db, DocumentArrival arrival, OrderDocument? read, CancellationToken cancel)
    {
        if (arrival.QueueEntryId is not { } entry)
        {
            if (read is null)
            {
                throw new DocumentRefusedException(ReturnCodes.Validation, "A change in part names its queue entry (ResubmissionParams/@QueueEntryID).");
            }

            return await OfJobAsync(db, arrival, read, cancel);
        }

        var first = QueueEntries.IdOf(entry);
        var latest = await db.ReceivedDocuments.Where(d => d.Id == first || d.FirstId == first).OrderByDescending(d => d.Id).FirstOrDefaultAsync(cancel);
        return latest is null || latest.Sender != arrival.Sender
            ? throw new DocumentRefusedException(ReturnCodes.UnknownQueueEntry, $"There is no queue entry “{entry.Cut(40)}” of this sender.")
            : read is not null && latest.JobId != read.JobId
            ? throw new DocumentRefusedException(ReturnCodes.Validation, $"Queue entry {latest.QueueEntryId} is job {latest.JobId}, and the document is about job {read.JobId}.")
            : latest;
    }

    // A program names its jobs for itself. What a person gives may be another form of what a colleague gave, or a program sent: the same job of the same customer.
    private static async Task<ReceivedDocument?> OfJobAsync(PlateRoomDb db, DocumentArrival arrival, OrderDocument read, CancellationToken cancel)
    {
        const int MostLookedAt = 10;
        var named = await db.ReceivedDocuments.Where(d => d.JobId == read.JobId && d.JobPartId == read.JobPartId && !(d.State == DocumentState.SetAside && d.OrderId == null && d.FirstId == null))
            .OrderByDescending(d => d.Sender == arrival.Sender).ThenByDescending(d => d.Id).Take(MostLookedAt).ToListAsync(cancel);
        if (arrival.Door != DocumentDoor.Hand && named.Find(d => d.Sender == arrival.Sender) is { } own)
        {
            return own;
        }

        foreach (var other in named.Where(d => arrival.Door == DocumentDoor.Hand || d.Door == DocumentDoor.Hand))
        {
            var earlier = XjdfReader.Read(await db.DocumentTexts.Where(t => t.DocumentId == other.Id).Select(t => t.Xjdf).SingleAsync(cancel));
            if ((earlier.CustomerId, earlier.CustomerName) == (read.CustomerId, read.CustomerName))
            {
                return other;
            }
        }

        return null;
    }

    private static async Task<byte[]> MergedAsync(PlateRoomDb db, ReceivedDocument job, DocumentArrival arrival, CancellationToken cancel)
    {
        var whole = SafeXml.Read(await db.DocumentTexts.Where(t => t.DocumentId == job.Id).Select(t => t.Xjdf).SingleAsync(cancel));
        XjdfMerge.Apply(whole, SafeXml.Read(arrival.Xjdf), arrival.Update);
        using var bytes = new MemoryStream();
        whole.Save(bytes, SaveOptions.None);
        return bytes.ToArray();
    }

    private static async Task<bool> SameFilesAsync(PlateRoomDb db, ReceivedDocument job, DocumentArrival arrival, CancellationToken cancel)
    {
        var sums = arrival.Files.Select(f => f.Sha256).Distinct().ToList();
        if (sums.Count == 0)
        {
            return true;
        }

        var waiting = await db.DocumentFiles.Where(f => f.DocumentId == job.Id && sums.Contains(f.Sha256)).Select(f => f.Sha256).ToListAsync(cancel);
        var given = job.OrderId is { } order ? await db.Separations.Where(s => s.TicketId == order && sums.Contains(s.Sha256)).Select(s => s.Sha256).ToListAsync(cancel) : [];
        return sums.TrueForAll(s => waiting.Contains(s) || given.Contains(s));
    }

    private static List<DocumentFile> FilesOf(ReceivedDocument document, OrderDocument read, IReadOnlyList<ArrivedPart> parts) =>
    [
        .. read.Plates.Where(p => p.FileUrl.Length > 0).DistinctBy(p => p.Colour, StringComparer.OrdinalIgnoreCase)
            .SelectMany(p => parts.Where(f => f.Url == p.FileUrl).Take(1).Select(f => new DocumentFile { Document = document, Url = f.Url, FileName = f.FileName, Sha256 = f.Sha256, Bytes = f.Bytes, Colour = p.Colour })),
    ];

    // What a person answered stays true as long as the document says the same about it.
    private static DocumentAnswers Carried(DocumentText before, OrderDocument now)
    {
        var was = XjdfReader.Read(before.Xjdf);
        var answers = before.Answers;
        return answers with
        {
            CustomerId = was.CustomerId == now.CustomerId && was.CustomerName == now.CustomerName ? answers.CustomerId : null,
            NewCustomer = was.CustomerId == now.CustomerId && was.CustomerName == now.CustomerName ? answers.NewCustomer : "",
            PressId = was.Press == now.Press ? answers.PressId : null,
            CylinderId = was.Cylinder == now.Cylinder && was.RepeatMm == now.RepeatMm && was.Press == now.Press ? answers.CylinderId : null,
            RepeatMm = was.Cylinder == now.Cylinder && was.RepeatMm == now.RepeatMm && was.Press == now.Press ? answers.RepeatMm : null,
            MaterialId = (was.Material, was.Brand, was.Thickness, was.PlateTechnology) == (now.Material, now.Brand, now.Thickness, now.PlateTechnology) ? answers.MaterialId : null,
            DueUtc = was.DueText == now.DueText ? answers.DueUtc : null,
            Copies = was.Plates.Select(p => (p.Colour, p.Amount)).SequenceEqual(now.Plates.Select(p => (p.Colour, p.Amount))) ? answers.Copies : null,
            Agreed = [.. answers.Agreed.Where(a => a != DocumentDesk.ChangeKey && was.Doubts.FirstOrDefault(d => d.Key == a)?.Sentence == now.Doubts.FirstOrDefault(d => d.Key == a)?.Sentence)],
            FilesAccepted = "",
            WithoutFiles = false,
        };
    }
}
