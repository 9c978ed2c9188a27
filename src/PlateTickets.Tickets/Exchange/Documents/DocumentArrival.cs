using PlateTickets.Tickets.Exchange.Xjdf;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>A file of a package, on the shelf.</summary>
/// <param name="Url">As the document names it.</param>
/// <param name="FileName">Its own name, without folders.</param>
/// <param name="Sha256">Of its content.</param>
/// <param name="Bytes">Its length.</param>
public sealed record ArrivedPart(string Url, string FileName, string Sha256, long Bytes);

/// <summary>A document as a door hands it over.</summary>
public sealed record DocumentArrival(DocumentDoor Door, string Sender, string FileName, byte[] Xjdf)
{
    /// <summary>The message that brought it.</summary>
    public byte[]? Xjmf { get; init; }

    public IReadOnlyList<ArrivedPart> Files { get; init; } = [];

    public string ReturnUrl { get; init; } = "";

    /// <summary>Of the message; the document's own counts otherwise.</summary>
    public int? Priority { get; init; }

    public bool StartsHeld { get; init; }

    /// <summary>The queue entry that a resubmission names; null for a document that finds its job by itself.</summary>
    public string? QueueEntryId { get; init; }

    public UpdateMethod Update { get; init; } = UpdateMethod.Complete;
}

/// <summary>What became of a document.</summary>
/// <param name="Document">As it stands now.</param>
/// <param name="Ticket">Its ticket's number; null when none is entered.</param>
/// <param name="Questions">What a person must answer.</param>
/// <param name="Notes">What was decided by itself and what was not used.</param>
/// <param name="Repeated">The same document came before: nothing was done again.</param>
public sealed record DocumentOutcome(ReceivedDocument Document, string? Ticket, IReadOnlyList<DocumentQuestion> Questions, IReadOnlyList<string> Notes, bool Repeated);

/// <summary>A document with all that its page shows.</summary>
public sealed record DocumentView(ReceivedDocument Document, DocumentText Text, DocumentReview Review, IReadOnlyList<DocumentFile> Files, DocumentDifference? Difference, IReadOnlyList<ReceivedDocument> Others);
