namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>What the pixels of a separation show; upright, that is after the orientation tag.</summary>
/// <param name="Coverage">Share of the image that is ink, 0 to 1.</param>
/// <param name="Box">The smallest rectangle that holds all ink; null when there is none.</param>
/// <param name="PreviewPng">Grey PNG of at most 1,024 pixels on its longer side; white is no ink. Each pixel is the mean of the image below it.</param>
/// <param name="ImageHash">The same for two files with the same image at the same size, whatever their compression; hexadecimal.</param>
public sealed record SeparationImage(double Coverage, ImageBox? Box, ReadOnlyMemory<byte> PreviewPng, string ImageHash);

/// <summary>A rectangle in an upright image, in mm from its upper left corner.</summary>
public sealed record ImageBox(double LeftMm, double TopMm, double WidthMm, double HeightMm);
