using PdfSharp.Drawing;
using PlateTickets.Travelers.Codes;

namespace PlateTickets.Travelers.Pages;

/// <summary>Draws codes as vectors: sharp on every printer.</summary>
internal static class CodeDrawing
{
    /// <summary>Module of Code 128: 8 dots of a 600 dpi printer, 4 dots of a 300 dpi one (0.339 mm).</summary>
    public const double BarModuleMm = 25.4 / 600 * 8;

    public const double BarHeightMm = 12.7;

    private const int BarQuiet = 10;
    private const int QrQuiet = 4;

    public static double BarWidthMm(string text) => (SheetCodes.Code128(text).Length + (2 * BarQuiet)) * BarModuleMm;

    /// <summary>Draws the bars; x and y are the corner of the quiet zone in points.</summary>
    public static void Bars(XGraphics graphics, string text, double x, double y)
    {
        var modules = SheetCodes.Code128(text);
        var module = Sheet.Mm(BarModuleMm);
        for (var i = 0; i < modules.Length; i++)
        {
            var start = i;
            while (i < modules.Length && modules[i])
            {
                i++;
            }

            if (i > start)
            {
                graphics.DrawRectangle(XBrushes.Black, x + ((BarQuiet + start) * module), y, (i - start) * module, Sheet.Mm(BarHeightMm));
            }
        }
    }

    /// <summary>Draws the QR code into a square of the given side, quiet zone included.</summary>
    public static void Qr(XGraphics graphics, string text, double x, double y, double side)
    {
        var modules = SheetCodes.Qr(text);
        var count = modules.GetLength(0);
        var module = side / (count + (2 * QrQuiet));
        for (var row = 0; row < count; row++)
        {
            for (var column = 0; column < count; column++)
            {
                var start = column;
                while (column < count && modules[row, column])
                {
                    column++;
                }

                if (column > start)
                {
                    // One run of modules is one rectangle: no hair lines between neighbours.
                    graphics.DrawRectangle(XBrushes.Black, x + ((QrQuiet + start) * module), y + ((QrQuiet + row) * module), (column - start) * module, module);
                }
            }
        }
    }
}
