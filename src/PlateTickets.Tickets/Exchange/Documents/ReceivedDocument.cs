using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders;

namespace PlateTickets.Tickets.Exchange.Documents;

/// <summary>Through which door a document came.</summary>
public enum DocumentDoor
{
    Http = 1,
    Folder = 2,

    /// <summary>Given on a page by a person.</summary>
    Hand = 3,
}

/// <summary>What a document asks for.</summary>
public enum DocumentPurpose
{
    /// <summary>A new order.</summary>
    Order = 1,

    /// <summary>Another form of an order that came before.</summary>
    Change = 2,
}

public enum DocumentState
{
    /// <summary>Kept, not decided yet.</summary>
    Taken = 1,

    /// <summary>A person must answer something first.</summary>
    Held = 2,

    /// <summary>Its order is entered, or its change is made.</summary>
    Done = 3,

    /// <summary>A person decided that nothing is done with it.</summary>
    SetAside = 4,
}

/// <summary>An order document that came from another program: its job, where it stands, and the order that it became. The text lies in <see cref="DocumentText"/>.</summary>
public sealed class ReceivedDocument : IAudited, IVersioned
{
    public int Id { get; set; }

    public DocumentDoor Door { get; set; }

    public DocumentPurpose Purpose { get; set; }

    public DocumentState State { get; set; }

    /// <summary>Who sent it: the key's name, the person's, or the drop folder.</summary>
    public required string Sender { get; set; }

    public required string FileName { get; set; }

    /// <summary>XJDF/@JobID; with the sender it names the job.</summary>
    public required string JobId { get; set; }

    /// <summary>XJDF/@JobPartID; empty when it was not given.</summary>
    public string JobPartId { get; set; } = "";

    public string Title { get; set; } = "";

    /// <summary>Of the XJDF as it came, in hexadecimal.</summary>
    public required string Sha256 { get; set; }

    public DateTime ReceivedUtc { get; set; }

    /// <summary>Where its state comes from, in words: what is asked, what became of it.</summary>
    public string Sentence { get; set; } = "";

    /// <summary>The order that it became or changes.</summary>
    public int? OrderId { get; set; }

    public Order? Order { get; set; }

    /// <summary>The first document of the same job; null for that one itself. Its id names the queue entry.</summary>
    public int? FirstId { get; set; }

    /// <summary>Where the finished job is sent back to (QueueSubmissionParams/@ReturnJMF); empty for nowhere.</summary>
    public string ReturnUrl { get; set; } = "";

    /// <summary>0 to 100 as the sender sees it.</summary>
    public int Priority { get; set; } = 50;

    /// <summary>The sender wants its sheets on hold from the start (Activation Held).</summary>
    public bool StartsHeld { get; set; }

    /// <summary>Files that came with it and are not on the ticket yet.</summary>
    public int FilesOpen { get; set; }

    public int Version { get; set; }

    /// <summary>What the sender calls it in messages (QueueEntry/@QueueEntryID).</summary>
    public string QueueEntryId => $"Q{FirstId ?? Id}";

    public string AuditKey => JobId;
}

/// <summary>The bytes of a document as they came, and what a person answered about it.</summary>
public sealed class DocumentText
{
    public int DocumentId { get; set; }

    public ReceivedDocument? Document { get; set; }

    /// <summary>The XJDF, byte by byte.</summary>
    public required byte[] Xjdf { get; set; }

    /// <summary>The XJMF that brought it; null when it came alone.</summary>
    public byte[]? Xjmf { get; set; }

    /// <summary>A change that was sent in part (Incremental, Remove) as it came; <see cref="Xjdf"/> is then the whole that results.</summary>
    public byte[]? Part { get; set; }

    public DocumentAnswers Answers { get; set; } = new();
}

/// <summary>What a person decided about a document; null or empty where nothing was said.</summary>
public sealed record DocumentAnswers
{
    public int? CustomerId { get; init; }

    public string NewCustomer { get; init; } = "";

    public int? PressId { get; init; }

    public int? CylinderId { get; init; }

    public double? RepeatMm { get; init; }

    public int? MaterialId { get; init; }

    public DateTime? DueUtc { get; init; }

    public int? Copies { get; init; }

    /// <summary>Why its files are right although one looks wrong.</summary>
    public string FilesAccepted { get; init; } = "";

    /// <summary>Its files are not taken; others come.</summary>
    public bool WithoutFiles { get; init; }

    /// <summary>Things of the document that a person saw and lets pass, by their key.</summary>
    public IReadOnlyList<string> Agreed { get; init; } = [];
}

/// <summary>A file that came in a document's package and lies on the shelf until it is on the ticket.</summary>
public sealed class DocumentFile
{
    public int Id { get; set; }

    public int DocumentId { get; set; }

    public ReceivedDocument? Document { get; set; }

    /// <summary>As the document names it.</summary>
    public required string Url { get; set; }

    public required string FileName { get; set; }

    public required string Sha256 { get; set; }

    public long Bytes { get; set; }

    /// <summary>The ink, as the document names it.</summary>
    public required string Colour { get; set; }
}
