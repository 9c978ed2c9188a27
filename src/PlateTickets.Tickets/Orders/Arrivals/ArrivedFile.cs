using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Tickets.Orders.Arrivals;

/// <summary>How far a file from the drop folder has come.</summary>
public enum ArrivalState
{
    /// <summary>It lies in the room's own folder and is not read yet.</summary>
    Taken = 1,

    /// <summary>Read; somebody must say where it belongs.</summary>
    Waiting = 2,

    /// <summary>Its separation is on a ticket.</summary>
    Given = 3,

    /// <summary>It is no separation; the sentence says why.</summary>
    Refused = 4,

    /// <summary>Put away by a person with a reason.</summary>
    SetAside = 5,
}

/// <summary>A file that came in through the drop folder: one row for each content and name.</summary>
public sealed class ArrivedFile : IAudited, IVersioned
{
    public int Id { get; set; }

    public required string FileName { get; set; }

    /// <summary>SHA-256 of the file, in hexadecimal.</summary>
    public required string Sha256 { get; set; }

    public long FileBytes { get; set; }

    public DateTime ArrivedUtc { get; set; }

    public ArrivalState State { get; set; }

    /// <summary>Why it waits, why it was refused or set aside, or where it went.</summary>
    public string Sentence { get; set; } = "";

    /// <summary>The ticket that its name asks for, or that it was given to; empty when none.</summary>
    public string TicketNumber { get; set; } = "";

    public string Colour { get; set; } = "";

    public int WidthUm { get; set; }

    public int LengthUm { get; set; }

    public double PixelsPerMm { get; set; }

    public double? Coverage { get; set; }

    public int Version { get; set; }

    public string AuditKey => FileName;
}

/// <summary>The preview of an arrived file, apart from its row.</summary>
public sealed class ArrivedPreview
{
    public int ArrivedFileId { get; set; }

    public ArrivedFile? ArrivedFile { get; set; }

    public required byte[] Png { get; set; }
}
