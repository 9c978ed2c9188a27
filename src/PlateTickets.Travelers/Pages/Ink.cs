using PdfSharp.Drawing;

namespace PlateTickets.Travelers.Pages;

/// <summary>Greys and lines: everything must read on a black and white printer.</summary>
internal static class Ink
{
    public static readonly XBrush Black = XBrushes.Black;
    public static readonly XBrush Grey = new XSolidBrush(XColor.FromArgb(0x40, 0x48, 0x4b));
    public static readonly XBrush Tint = new XSolidBrush(XColor.FromArgb(0xf0, 0xee, 0xe8));
    public static readonly XPen Line = new(XColor.FromArgb(0x90, 0x96, 0x98), 0.5);
    public static readonly XPen Box = new(XColors.Black, 0.8);
    public static readonly XPen Heavy = new(XColors.Black, 1.6);

    /// <summary>A swatch's colour from "#rrggbb", or null.</summary>
    public static XBrush? Swatch(string? rgb) => rgb is { Length: 7 }
        ? new XSolidBrush(XColor.FromArgb(Convert.ToInt32(rgb[1..3], 16), Convert.ToInt32(rgb[3..5], 16), Convert.ToInt32(rgb[5..7], 16)))
        : null;
}
