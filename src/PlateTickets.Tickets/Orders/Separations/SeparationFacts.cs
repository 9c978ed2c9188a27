using PlateTickets.Process;

namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>Where a separation's colour name came from.</summary>
public enum ColourSource
{
    /// <summary>Nothing named it; a person must.</summary>
    None = 0,

    /// <summary>The end of the file's name.</summary>
    FileName = 1,

    /// <summary>TIFF tag 285.</summary>
    PageName = 2,

    /// <summary>TIFF tag 333.</summary>
    InkNames = 3,

    /// <summary>TIFF tag 270.</summary>
    ImageDescription = 4,

    /// <summary>A person, or the order's own line.</summary>
    Order = 5,
}

/// <summary>What a one-bit TIFF separation says of itself.</summary>
/// <param name="FileName">As it came.</param>
/// <param name="WidthPixels">Across, after the orientation tag.</param>
/// <param name="HeightPixels">Around, after the orientation tag.</param>
/// <param name="XPixelsPerMm">Across.</param>
/// <param name="YPixelsPerMm">Around.</param>
/// <param name="WidthMm">Across.</param>
/// <param name="HeightMm">Around.</param>
/// <param name="Colour">The ink; empty when nothing names it.</param>
/// <param name="ColourFrom">Where the name came from.</param>
/// <param name="Compression">In words.</param>
/// <param name="InkIsZero">True when a 0 bit is ink (photometric 1, black is zero).</param>
/// <param name="TagColour">What the file's tags call the colour, whatever its name says; empty when they do not.</param>
/// <param name="Image">What its pixels show; null where only the header is known.</param>
public sealed record SeparationFacts(
    string FileName, int WidthPixels, int HeightPixels, double XPixelsPerMm, double YPixelsPerMm, double WidthMm, double HeightMm,
    string Colour, ColourSource ColourFrom, string Compression, bool InkIsZero, string TagColour = "", SeparationImage? Image = null)
{
    /// <summary>"2 540 ppi", or across and around when they differ.</summary>
    public string Ppi => Resolution(XPixelsPerMm, YPixelsPerMm);

    public static string Resolution(double xPixelsPerMm, double yPixelsPerMm)
    {
        var (x, y) = (xPixelsPerMm * 25.4, yPixelsPerMm * 25.4);
        return Math.Abs(x - y) < 0.5 ? $"{Numbers.ForPeople(x, 0)} ppi" : $"{Numbers.ForPeople(x, 0)} × {Numbers.ForPeople(y, 0)} ppi";
    }
}
