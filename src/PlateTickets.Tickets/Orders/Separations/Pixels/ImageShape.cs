namespace PlateTickets.Tickets.Orders.Separations.Pixels;

/// <summary>How the pixels lie in the file, and how many of them make a pixel of the preview.</summary>
/// <param name="Width">Pixels of a stored line.</param>
/// <param name="Height">Stored lines.</param>
/// <param name="Orientation">TIFF tag 274, 1 to 8.</param>
/// <param name="InkIsZero">A 0 bit is ink.</param>
/// <param name="CellWidth">Stored pixels across one pixel of the preview: below 8, or a multiple of 8.</param>
/// <param name="CellHeight">Stored lines of one pixel of the preview.</param>
internal sealed record ImageShape(int Width, int Height, int Orientation, bool InkIsZero, int CellWidth, int CellHeight)
{
    public const int LongestPreview = 1024;

    // Keeps the sums of a cell within their bits, also where the two resolutions differ wildly.
    private const int LargestCell = 2000;

    public int CellsAcross => ((Width - 1) / CellWidth) + 1;

    public int CellsDown => ((Height - 1) / CellHeight) + 1;

    /// <summary>Cells that look right: as high as they are wide in millimetres.</summary>
    public static ImageShape Of(int width, int height, int orientation, bool inkIsZero, double xPerMm, double yPerMm)
    {
        var cellMm = Math.Max(width / xPerMm, height / yPerMm) / LongestPreview;
        var across = Math.Max((int)Math.Min(Math.Ceiling(cellMm * xPerMm), LargestCell), ((width - 1) / LongestPreview) + 1);
        // Whole bytes are counted at once.
        across = across < 8 ? across : (across + 7) / 8 * 8;
        var down = Math.Max((int)Math.Min(Math.Round(across / xPerMm * yPerMm), LargestCell), ((height - 1) / LongestPreview) + 1);
        return new ImageShape(width, height, orientation, inkIsZero, across, Math.Max(1, down));
    }
}
