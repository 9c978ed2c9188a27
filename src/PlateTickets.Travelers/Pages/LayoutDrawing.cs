using PdfSharp.Drawing;

namespace PlateTickets.Travelers.Pages;

/// <summary>The sheet to scale with its plates: x along the drum axis, y around the drum.</summary>
internal static class LayoutDrawing
{
    private const double AxisText = 10;

    /// <summary>Draws into a box and returns the height that was used.</summary>
    public static double Draw(XGraphics g, TravelerContent content, double x, double y, double width, double height)
    {
        var layout = content.Layout;
        var scale = Math.Min((width - AxisText - 4) / layout.WidthMm, (height - AxisText - 4) / layout.LengthMm);
        var (w, h) = (layout.WidthMm * scale, layout.LengthMm * scale);
        var (left, top) = (x + AxisText + 2, y);
        g.DrawRectangle(Ink.Heavy, left, top, w, h);
        foreach (var plate in layout.Plates)
        {
            Plate(g, plate, left, top, scale);
        }

        var small = Fonts.Regular(7);
        g.DrawString(layout.WidthText, small, Ink.Grey, new XRect(left, top + h + 1, Math.Max(w, 100), AxisText), w < 100 ? XStringFormats.TopLeft : XStringFormats.TopCenter);
        var state = g.Save();
        g.RotateAtTransform(-90, new XPoint(x, top + h));
        // Beside a flat sheet there is room for the figure alone.
        var length = g.MeasureString(layout.LengthText, small).Width <= h ? layout.LengthText : layout.LengthText.Split(" around")[0];
        g.DrawString(length, small, Ink.Grey, new XRect(x, top + h, h, AxisText), XStringFormats.TopCenter);
        g.Restore(state);
        return h + AxisText + 4;
    }

    private static void Plate(XGraphics g, TravelerPlate plate, double left, double top, double scale)
    {
        var box = new XRect(left + (plate.XMm * scale), top + (plate.YMm * scale), plate.WidthMm * scale, plate.LengthMm * scale);
        g.DrawRectangle(Ink.Box, XBrushes.White, box);
        if (Ink.Swatch(plate.SwatchRgb) is { } swatch)
        {
            g.DrawRectangle(Ink.Line, swatch, box.X + 1.5, box.Y + 1.5, box.Width - 3, Math.Min(4, box.Height / 6));
        }

        var size = Math.Clamp(Math.Min(box.Width, box.Height) / 3, 5, 16);
        var mark = Fonts.Bold(size);
        var name = Fonts.Regular(Math.Clamp(size * 0.45, 5, 7.5));
        // Below the swatch, however flat the plate.
        var markTop = Math.Max(box.Y + (box.Height / 2) - size, box.Y + 6);
        g.DrawString(plate.Mark, mark, Ink.Black, new XRect(box.X, markTop, box.Width, size), XStringFormats.Center);
        if (box.Width > 22 && box.Height > 24)
        {
            var colour = plate.Rotated ? $"{plate.Colour}, turned" : plate.Colour;
            g.DrawString(Writing.Cut(g, colour, name, box.Width - 3), name, Ink.Black, new XRect(box.X, markTop + size + 1, box.Width, name.Size * 1.2), XStringFormats.Center);
        }
    }
}
