namespace PlateTickets.Tickets.Orders;

/// <summary>What is compared between the files of one job, whether they were just read or lie with the ticket.</summary>
public sealed record JobFile(
    string FileName, string Colour, string Sha256, string ImageHash, double? Coverage, int WidthUm, int LengthUm, double XPixelsPerMm, double YPixelsPerMm)
{
    public static JobFile Of(ReadSeparation read) => new(
        read.Facts.FileName, read.Facts.Colour, read.Sha256, read.Facts.Image?.ImageHash ?? "", read.Facts.Image?.Coverage,
        SeparationRules.Micrometres(read.Facts.WidthMm), SeparationRules.Micrometres(read.Facts.HeightMm), read.Facts.XPixelsPerMm, read.Facts.YPixelsPerMm);

    public static JobFile Of(Separation separation) => new(
        separation.FileName, separation.Colour, separation.Sha256, separation.ImageHash, separation.Coverage,
        separation.WidthUm, separation.LengthUm, separation.XPixelsPerMm, separation.YPixelsPerMm);
}
