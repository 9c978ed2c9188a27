using Microsoft.EntityFrameworkCore;
using PlateTickets.Process;
using PlateTickets.Tickets.Exchange.Xjdf;
using PlateTickets.Tickets.Orders;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Stations;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>
/// Takes order documents of other programs in: kept first as they came, then entered by themselves when nothing of them is in doubt, or held for a person.
/// Every step can be done again: a stopped server goes on where it was.
/// </summary>
public sealed class DocumentDesk(
    IDbContextFactory<PlateRoomDb> databases, RoomCatalog rooms, OrderEntry entry, OrderChanges changes, OrderCopies copies, DocumentShelf shelf, TimeProvider clock)
{
    private const int MostListed = 200;

    /// <summary>The key under which a person agrees to a change.</summary>
    public const string ChangeKey = "change";

    // Two forms of one job must not be decided at the same time.
    private readonly SemaphoreSlim _one = new(1, 1);
    private readonly DocumentKeeper _keeper = new(databases, shelf, clock);
    private readonly DocumentFileGiver _giver = new(databases, entry, shelf);
    private readonly DocumentReading _reading = new(rooms, clock);

    /// <summary>Raised when a document came or its state is another.</summary>
    public event Action? Changed;

    /// <summary>Says that a document changed elsewhere.</summary>
    public void TellChanged() => Changed?.Invoke();

    /// <summary>Raised when files of a document wait to be read: its id.</summary>
    public event Action<int>? FilesWait;

    /// <summary>Takes a document in and decides on it as far as that goes without reading its files.</summary>
    /// <exception cref="DocumentRefusedException">It is no order, or changes a job that is not here; nothing of it is kept.</exception>
    public async Task<DocumentOutcome> TakeAsync(DocumentArrival arrival, CancellationToken cancel = default)
    {
        // A part is no order by itself: it is read when it is one with the whole.
        var read = arrival.Update == UpdateMethod.Complete ? XjdfReader.Read(arrival.Xjdf) : null;
        await _one.WaitAsync(cancel);
        try
        {
            var (id, repeated) = await _keeper.KeepAsync(arrival, read, cancel);
            return repeated ? await OutcomeAsync(id, repeated: true, cancel) : await DecideAsync(id, arrival.Sender, cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>A person's answers; the document is decided on again at once.</summary>
    /// <param name="id">The document.</param>
    /// <param name="answers">All of them: they take the place of earlier ones.</param>
    /// <param name="remember">Keep what customer, press and material names of the document mean, for the next one.</param>
    /// <param name="by">Who.</param>
    /// <param name="cancel">Cancels.</param>
    /// <exception cref="PlateRoomException">There is no such document, or it waits for nothing any more.</exception>
    public async Task<DocumentOutcome> AnswerAsync(int id, DocumentAnswers answers, bool remember, string by, CancellationToken cancel = default)
    {
        await _one.WaitAsync(cancel);
        try
        {
            await using (var db = await databases.CreateDbContextAsync(cancel))
            {
                db.ActingAs = by;
                var (document, text) = await OpenAsync(db, id, cancel);
                text.Answers = answers;
                db.Note(nameof(ReceivedDocument), document.JobId, "answered what was asked about");
                if (remember)
                {
                    await RememberAsync(db, XjdfReader.Read(text.Xjdf), answers, cancel);
                }

                await db.SaveChangesAsync(cancel);
            }

            return await DecideAsync(id, by, cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Nothing is done with a document.</summary>
    /// <exception cref="PlateRoomException">No reason was given, or the document waits for nothing any more.</exception>
    public async Task SetAsideAsync(int id, string reason, string by, CancellationToken cancel = default)
    {
        if (string.IsNullOrWhiteSpace(reason))
        {
            throw new PlateRoomException("Say why the document is set aside: its sender will ask.");
        }

        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var (document, _) = await OpenAsync(db, id, cancel);
        (document.State, document.Sentence, document.FilesOpen) = (DocumentState.SetAside, $"Set aside by {by}: {reason.Trim()}", 0);
        await shelf.ForgetOfAsync(db, id, cancel);
        await db.SaveChangesAsync(cancel);
        Changed?.Invoke();
    }

    /// <summary>A change of a ticket that is closed becomes an order of its own.</summary>
    /// <exception cref="PlateRoomException">The document waits for nothing any more.</exception>
    public async Task<DocumentOutcome> EnterAnewAsync(int id, string by, CancellationToken cancel = default)
    {
        await _one.WaitAsync(cancel);
        try
        {
            await using (var db = await databases.CreateDbContextAsync(cancel))
            {
                db.ActingAs = by;
                var (document, _) = await OpenAsync(db, id, cancel);
                (document.Purpose, document.OrderId) = (DocumentPurpose.Order, null);
                await db.SaveChangesAsync(cancel);
            }

            return await DecideAsync(id, by, cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Documents that wait for a person (or the others), newest first; at most 200.</summary>
    public async Task<List<ReceivedDocument>> ListAsync(bool waiting, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var states = waiting ? new[] { DocumentState.Taken, DocumentState.Held } : [DocumentState.Done, DocumentState.SetAside];
        return await db.ReceivedDocuments.AsNoTracking().Include(d => d.Order).Where(d => states.Contains(d.State))
            .OrderByDescending(d => d.ReceivedUtc).ThenByDescending(d => d.Id).Take(MostListed).ToListAsync(cancel);
    }

    public async Task<int> CountWaitingAsync(CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ReceivedDocuments.CountAsync(d => d.State == DocumentState.Held, cancel);
    }

    /// <summary>The bytes of a document as they came: the part, where it was sent in part. Null when there is none.</summary>
    public async Task<byte[]?> BytesAsync(int id, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.DocumentTexts.Where(t => t.DocumentId == id).Select(t => t.Part ?? t.Xjdf).SingleOrDefaultAsync(cancel);
    }

    /// <summary>The newest document that an order came with; null for one that people entered.</summary>
    public async Task<int?> OfOrderAsync(int orderId, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ReceivedDocuments.Where(d => d.OrderId == orderId && d.State != DocumentState.SetAside).MaxAsync(d => (int?)d.Id, cancel);
    }

    /// <summary>The newest document of a job; null when there is none.</summary>
    public async Task<int?> NewestOfAsync(string queueEntryId, CancellationToken cancel = default)
    {
        var first = QueueEntries.IdOf(queueEntryId);
        await using var db = await databases.CreateDbContextAsync(cancel);
        return await db.ReceivedDocuments.Where(d => d.Id == first || d.FirstId == first).MaxAsync(d => (int?)d.Id, cancel);
    }

    /// <summary>A document with what the room makes of it now, or null.</summary>
    public async Task<DocumentView?> FindAsync(int id, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var document = await db.ReceivedDocuments.AsNoTracking().Include(d => d.Order!.Ticket).SingleOrDefaultAsync(d => d.Id == id, cancel);
        if (document is null)
        {
            return null;
        }

        var text = await db.DocumentTexts.AsNoTracking().SingleAsync(t => t.DocumentId == id, cancel);
        var (review, files, room) = await _reading.ReviewAsync(db, document, text, cancel);
        var difference = document is { Purpose: DocumentPurpose.Change, OrderId: { } order, State: DocumentState.Held or DocumentState.Taken }
            ? await DocumentDifference.OfAsync(db, room, order, review, files, cancel)
            : null;
        var first = document.FirstId ?? document.Id;
        var others = await db.ReceivedDocuments.AsNoTracking().Include(d => d.Order).Where(d => (d.Id == first || d.FirstId == first) && d.Id != id).OrderBy(d => d.Id).Take(MostListed).ToListAsync(cancel);
        return new(document, text, review, files, difference, others);
    }

    /// <summary>Decides what a stopped server left undecided.</summary>
    /// <returns>Documents whose files wait to be read.</returns>
    public async Task<IReadOnlyList<int>> GoOnAsync(CancellationToken cancel = default)
    {
        await _one.WaitAsync(cancel);
        try
        {
            List<int> taken;
            await using (var db = await databases.CreateDbContextAsync(cancel))
            {
                taken = await db.ReceivedDocuments.Where(d => d.State == DocumentState.Taken).OrderBy(d => d.Id).Select(d => d.Id).ToListAsync(cancel);
            }

            foreach (var id in taken)
            {
                await DecideAsync(id, "PlateTickets", cancel);
            }

            await using var then = await databases.CreateDbContextAsync(cancel);
            return await then.ReceivedDocuments.Where(d => d.State == DocumentState.Done && d.FilesOpen > 0 && !d.StartsHeld).OrderBy(d => d.Id).Select(d => d.Id).ToListAsync(cancel);
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Takes files off the shelf that no document waits for.</summary>
    public async Task ForgetUnusedAsync(IReadOnlyCollection<string> sums, CancellationToken cancel = default)
    {
        if (sums.Count == 0)
        {
            return;
        }

        await _one.WaitAsync(cancel);
        try
        {
            await using var db = await databases.CreateDbContextAsync(cancel);
            var needed = await db.DocumentFiles.Where(f => sums.Contains(f.Sha256)).Select(f => f.Sha256).ToListAsync(cancel);
            foreach (var sum in sums.Except(needed))
            {
                shelf.Forget(sum);
            }
        }
        finally
        {
            _one.Release();
        }
    }

    /// <summary>Reads the files of a document and gives them to its ticket.</summary>
    public async Task GiveFilesAsync(int id, CancellationToken cancel = default)
    {
        ReceivedDocument document;
        DocumentText text;
        List<DocumentFile> files;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            document = await db.ReceivedDocuments.AsNoTracking().Include(d => d.Order!.Ticket).SingleAsync(d => d.Id == id, cancel);
            text = await db.DocumentTexts.AsNoTracking().SingleAsync(t => t.DocumentId == id, cancel);
            files = await db.DocumentFiles.AsNoTracking().Where(f => f.DocumentId == id).OrderBy(f => f.Id).ToListAsync(cancel);
        }

        if (document is not { State: DocumentState.Done, StartsHeld: false, Order: { } order } || files.Count == 0)
        {
            return;
        }

        var (sentence, held) = order.Ticket!.State == TicketState.WaitingForFiles
            ? await _giver.GiveAsync(document, text, order.Number, files, cancel)
            : (document.Sentence, false);
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            var row = await db.ReceivedDocuments.SingleAsync(d => d.Id == id, cancel);
            db.ActingAs = row.Sender;
            (row.Sentence, row.State) = (Fit(sentence), held ? DocumentState.Held : DocumentState.Done);
            if (!held)
            {
                row.FilesOpen = 0;
                await shelf.ForgetOfAsync(db, id, cancel);
            }

            await db.SaveChangesAsync(cancel);
        }

        Changed?.Invoke();
    }

    /// <summary>A job that its sender put on hold before its plates were laid out goes on.</summary>
    public async Task GoOnFromHoldAsync(int id, string by, CancellationToken cancel = default)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var document = await db.ReceivedDocuments.SingleAsync(d => d.Id == id, cancel);
        document.StartsHeld = false;
        if (document.State == DocumentState.Done)
        {
            document.Sentence = Entered(document);
        }

        await db.SaveChangesAsync(cancel);
        Changed?.Invoke();
        FilesWait?.Invoke(id);
    }

    private async Task<DocumentOutcome> DecideAsync(int id, string by, CancellationToken cancel)
    {
        ReceivedDocument document;
        DocumentText text;
        DocumentReview review;
        DocumentDifference? difference = null;
        string? number;
        TicketState? state;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            document = await db.ReceivedDocuments.AsNoTracking().Include(d => d.Order!.Ticket).SingleAsync(d => d.Id == id, cancel);
            text = await db.DocumentTexts.AsNoTracking().SingleAsync(t => t.DocumentId == id, cancel);
            (number, state) = (document.Order?.Number, document.Order?.Ticket!.State);
            (review, var files, var room) = await _reading.ReviewAsync(db, document, text, cancel);
            if (document is { Purpose: DocumentPurpose.Change, OrderId: { } order })
            {
                difference = await DocumentDifference.OfAsync(db, room, order, review, files, cancel);
            }
        }

        if (document is { Purpose: DocumentPurpose.Order, OrderId: not null })
        {
            // Entered before; only its files were in doubt.
            await DecideOnFilesAsync(document, text.Answers, by, cancel);
        }
        else if (review.Questions.Count > 0)
        {
            await StandAsync(id, by, DocumentState.Held, $"{review.Questions[0].Sentence}{(review.Questions.Count > 1 ? $" And {review.Questions.Count - 1} more." : "")}", cancel);
        }
        else if (difference is null)
        {
            await EnterAsync(document, review, by, cancel);
        }
        else
        {
            await ChangeAsync(document, text.Answers, review, difference, number!, state!.Value, by, cancel);
        }

        Changed?.Invoke();
        var outcome = await OutcomeAsync(id, repeated: false, cancel);
        if (outcome.Document is { State: DocumentState.Done, FilesOpen: > 0, StartsHeld: false })
        {
            FilesWait?.Invoke(id);
        }

        return outcome;
    }

    private async Task DecideOnFilesAsync(ReceivedDocument document, DocumentAnswers answers, string by, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var row = await db.ReceivedDocuments.SingleAsync(d => d.Id == document.Id, cancel);
        row.State = DocumentState.Done;
        if (answers.WithoutFiles)
        {
            (row.FilesOpen, row.Sentence) = (0, "Entered. Its files were not taken; others follow.");
            await shelf.ForgetOfAsync(db, row.Id, cancel);
        }

        await db.SaveChangesAsync(cancel);
    }

    private async Task EnterAsync(ReceivedDocument document, DocumentReview review, string by, CancellationToken cancel)
    {
        try
        {
            await entry.EnterAsync(
                review.Order, [], by, layOut: false, together: false, call: null,
                async (db, order) =>
                {
                    var row = await db.ReceivedDocuments.SingleAsync(d => d.Id == document.Id, cancel);
                    if (row.State is DocumentState.Done or DocumentState.SetAside)
                    {
                        throw new DecidedElsewhereException();
                    }

                    // A change that made new plates became an order of its own.
                    (row.State, row.Purpose, row.OrderId, row.Sentence) = (DocumentState.Done, DocumentPurpose.Order, order.Id, Entered(row));
                },
                cancel);
        }
        catch (OrderRefusedException refused)
        {
            await StandAsync(document.Id, by, DocumentState.Held, refused.Message, cancel);
        }
        catch (DecidedElsewhereException)
        {
            // Another node was first: its order stands, and nothing of this one was saved.
        }
    }

    private async Task ChangeAsync(
        ReceivedDocument document, DocumentAnswers answers, DocumentReview review, DocumentDifference difference, string number, TicketState state, string by, CancellationToken cancel)
    {
        var ticket = TrackingNumber.ForPeople(number);
        if (difference.Changes.Count == 0)
        {
            await StandAsync(document.Id, by, DocumentState.Done, $"Ticket {ticket} is like this already: nothing was changed.", cancel);
        }
        else if (state is TicketState.Done or TicketState.Cancelled)
        {
            await StandAsync(document.Id, by, DocumentState.Held, $"Ticket {ticket} is {(state == TicketState.Done ? "done" : "cancelled")} already, so nothing of it can change. Enter this document as a new order, or set it aside.", cancel);
        }
        else if (!difference.IsSmall && !answers.Agreed.Contains(ChangeKey))
        {
            await StandAsync(document.Id, by, DocumentState.Held, difference.Exposed
                ? $"Plates of ticket {ticket} are in work already. Look at what is different, then change it or set it aside."
                : $"It makes other plates than ticket {ticket} has. Look at what is different, then change it or set it aside.", cancel);
        }
        else
        {
            try
            {
                await MakeChangeAsync(document, review, difference, number, by, cancel);
            }
            catch (PlateRoomException refused)
            {
                await StandAsync(document.Id, by, DocumentState.Held, refused.Message, cancel);
            }
        }
    }

    private async Task MakeChangeAsync(ReceivedDocument document, DocumentReview review, DocumentDifference difference, string number, string by, CancellationToken cancel)
    {
        if (difference.MakesNewPlates)
        {
            await changes.CancelAsync(number, $"The customer changed the job: {string.Join(", ", difference.Changes.Where(c => c.MakesNewPlates).Select(c => c.What.ToLowerInvariant()).Distinct())}", by, cancel);
            await EnterAsync(document, review, by, cancel);
            return;
        }

        var wanted = review.Order;
        int version;
        await using (var db = await databases.CreateDbContextAsync(cancel))
        {
            db.ActingAs = by;
            var order = await db.Orders.SingleAsync(o => o.Number == number, cancel);
            (order.Title, order.CustomerReference, order.ContactMail) = (wanted.Title, wanted.CustomerReference, wanted.ContactMail);
            await db.SaveChangesAsync(cancel);
            version = order.Version;
            if (order.DueUtc != wanted.DueUtc)
            {
                await changes.SetDueAsync(number, wanted.DueUtc, version, by, cancel);
                version++;
            }

            if (order.Copies != wanted.Copies)
            {
                await copies.SetAsync(number, wanted.Copies, version, by, cancel);
            }
        }

        await StandAsync(document.Id, by, DocumentState.Done, $"Changed on ticket {TrackingNumber.ForPeople(number)}: {string.Join("; ", difference.Changes.Select(c => $"{c.What} {c.Before} → {c.After}"))}.", cancel);
    }

    private async Task<DocumentOutcome> OutcomeAsync(int id, bool repeated, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        var document = await db.ReceivedDocuments.AsNoTracking().Include(d => d.Order).SingleAsync(d => d.Id == id, cancel);
        var text = await db.DocumentTexts.AsNoTracking().SingleAsync(t => t.DocumentId == id, cancel);
        var (review, _, _) = await _reading.ReviewAsync(db, document, text, cancel);
        return new(document, document.Order?.Number, document.State == DocumentState.Held ? review.Questions : [], review.Notes, repeated);
    }

    private async Task StandAsync(int id, string by, DocumentState state, string sentence, CancellationToken cancel)
    {
        await using var db = await databases.CreateDbContextAsync(cancel);
        db.ActingAs = by;
        var document = await db.ReceivedDocuments.SingleAsync(d => d.Id == id, cancel);
        (document.State, document.Sentence) = (state, Fit(sentence));
        await db.SaveChangesAsync(cancel);
    }

    private static async Task<(ReceivedDocument Document, DocumentText Text)> OpenAsync(PlateRoomDb db, int id, CancellationToken cancel)
    {
        var document = await db.ReceivedDocuments.SingleOrDefaultAsync(d => d.Id == id, cancel) ?? throw new PlateRoomException("There is no such document.");
        return document.State is DocumentState.Held or DocumentState.Taken
            ? (document, await db.DocumentTexts.SingleAsync(t => t.DocumentId == id, cancel))
            : throw new PlateRoomException($"This document waits for nothing any more. {document.Sentence}");
    }

    private static async Task RememberAsync(PlateRoomDb db, OrderDocument read, DocumentAnswers answers, CancellationToken cancel)
    {
        await KeepAsync(NameKind.Customer, read.CustomerId.Length > 0 ? read.CustomerId : read.CustomerName, answers.CustomerId);
        await KeepAsync(NameKind.Press, read.Press, answers.PressId);
        await KeepAsync(NameKind.Material, read.Material.Length > 0 ? read.Material : read.Brand, answers.MaterialId);

        async Task KeepAsync(NameKind kind, string text, int? means)
        {
            if (text.Length == 0 || means is not { } id)
            {
                return;
            }

            var known = await db.KnownNames.SingleOrDefaultAsync(n => n.Kind == kind && n.Text == text, cancel);
            if (known is null)
            {
                db.KnownNames.Add(new KnownName { Kind = kind, Text = text, MeansId = id });
            }
            else
            {
                known.MeansId = id;
            }
        }
    }

    internal static string Entered(ReceivedDocument document) => document switch
    {
        { StartsHeld: true } => "Entered, on hold as its sender wishes until it is resumed.",
        { FilesOpen: > 0 } => "Entered; its files are read.",
        _ => "Entered; its files follow.",
    };

    private static string Fit(string sentence) => sentence.Cut(2000);

    private sealed class DecidedElsewhereException() : Exception("Another node decided on this document.");
}
