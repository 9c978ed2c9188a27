using PlateTickets.Process.Distortion;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Orders.Separations;

namespace PlateTickets.Tickets.Orders;

/// <summary>One colour's one-bit image, as read from its file. Width runs across the web, length around the cylinder.</summary>
public sealed class Separation : IAudited
{
    public int Id { get; set; }

    public int TicketId { get; set; }

    public required string Colour { get; set; }

    /// <summary>Where the colour's name came from.</summary>
    public ColourSource ColourFrom { get; set; }

    public required string FileName { get; set; }

    /// <summary>SHA-256 of the whole file, in hexadecimal.</summary>
    public required string Sha256 { get; set; }

    public long FileBytes { get; set; }

    public int WidthPixels { get; set; }

    public int HeightPixels { get; set; }

    public double XPixelsPerMm { get; set; }

    public double YPixelsPerMm { get; set; }

    public int WidthUm { get; set; }

    public int LengthUm { get; set; }

    /// <summary>Share of the image that is ink, 0 to 1; null for a file whose pixels were not read.</summary>
    public double? Coverage { get; set; }

    /// <summary>The smallest rectangle with all ink, from the upper left corner; null without ink.</summary>
    public int? ImageLeftUm { get; set; }

    public int? ImageTopUm { get; set; }

    public int? ImageWidthUm { get; set; }

    public int? ImageLengthUm { get; set; }

    /// <summary>The same for the same image in another file; empty for a file whose pixels were not read. Only with it there is a preview.</summary>
    public string ImageHash { get; set; } = "";

    /// <summary>Inked area of one plate in cm².</summary>
    public double? InkCm2 => Coverage * WidthUm * LengthUm / 1e8;

    /// <summary>What its length around looked like against the repeat when it was taken.</summary>
    public LengthVerdict LengthVerdict { get; set; }

    /// <summary>Why a length that looked wrong was taken all the same; empty otherwise.</summary>
    public string AcceptedBecause { get; set; } = "";

    public string AuditKey => FileName;

    /// <summary>The same for another ticket.</summary>
    public Separation Again()
    {
        var again = (Separation)MemberwiseClone();
        (again.Id, again.TicketId) = (0, 0);
        return again;
    }
}
