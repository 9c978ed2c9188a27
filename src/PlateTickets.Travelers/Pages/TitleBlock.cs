using PdfSharp.Drawing;

namespace PlateTickets.Travelers.Pages;

/// <summary>Top of each page: number, due time and codes; small on the pages after the first.</summary>
internal static class TitleBlock
{
    private const double QrMm = 27;

    public static void Draw(Sheet sheet, TravelerContent content)
    {
        if (!sheet.IsFirstPage)
        {
            DrawSmall(sheet, content);
            return;
        }

        var g = sheet.Graphics;
        var top = sheet.Y;
        var qr = Sheet.Mm(QrMm);
        var bars = Sheet.Mm(CodeDrawing.BarWidthMm(content.SheetNumber));
        var qrX = sheet.Right - qr;
        var barsX = qrX - bars;
        CodeDrawing.Qr(g, content.Qr, qrX, top - Sheet.Mm(2), qr);
        CodeDrawing.Bars(g, content.SheetNumber, barsX, top + Sheet.Mm(1));
        var below = Fonts.MonoBold(15);
        g.DrawString(content.SheetNumberForPeople, below, Ink.Black, new XRect(barsX, top + Sheet.Mm(1 + CodeDrawing.BarHeightMm + 0.8), bars, 18), XStringFormats.TopCenter);

        var width = barsX - sheet.Left - Sheet.Mm(2);
        var y = Writing.Paragraph(g, $"{content.SiteName} · Traveler", Fonts.Regular(9), Ink.Grey, sheet.Left, top, width, most: 1);
        y = Writing.Lines(g, [content.SheetNumberForPeople], Fonts.MonoBold(25), Ink.Black, sheet.Left, y + 1);
        y = Writing.Paragraph(g, content.Material, Fonts.Bold(10.5), Ink.Black, sheet.Left, y + 1, width, most: 1);
        y = Writing.Paragraph(g, $"{content.SheetSize} · recipe {content.Recipe}", Fonts.Regular(9), Ink.Black, sheet.Left, y, width, most: 2);
        y = Writing.Paragraph(g, content.SetPosition, Fonts.Bold(9), Ink.Black, sheet.Left, y, width, most: 2);

        y = Math.Max(y, top + qr - Sheet.Mm(2)) + 2;
        var due = new XRect(sheet.Left, y, sheet.Width, Sheet.Mm(9.5));
        g.DrawRectangle(Ink.Heavy, due);
        g.DrawString("Due", Fonts.Regular(11), Ink.Black, new XRect(due.X + 8, due.Y, 40, due.Height), XStringFormats.CenterLeft);
        g.DrawString(content.Due, Fonts.Bold(17), Ink.Black, new XRect(due.X + 36, due.Y, due.Width / 2, due.Height), XStringFormats.CenterLeft);
        if (content.ReprintNumber > 0)
        {
            g.DrawString(
                $"REPRINT {content.ReprintNumber}: destroy older copies", Fonts.Bold(11), Ink.Black,
                new XRect(due.X, due.Y, due.Width - 8, due.Height), XStringFormats.CenterRight);
        }

        sheet.Y = due.Bottom + 5;
        DrawFlags(sheet, content);
    }

    private static void DrawSmall(Sheet sheet, TravelerContent content)
    {
        var g = sheet.Graphics;
        var qr = Sheet.Mm(19);
        CodeDrawing.Qr(g, content.Qr, sheet.Right - qr, sheet.Y - Sheet.Mm(2), qr);
        var y = Writing.Lines(g, [content.SheetNumberForPeople], Fonts.MonoBold(16), Ink.Black, sheet.Left, sheet.Y);
        Writing.Paragraph(g, $"Due {content.Due} · {content.Material}, continued", Fonts.Regular(10), Ink.Black, sheet.Left, y + 2, sheet.Width - qr, most: 1);
        sheet.Y += qr;
    }

    private static void DrawFlags(Sheet sheet, TravelerContent content)
    {
        if (content.Flags.Count == 0)
        {
            return;
        }

        var g = sheet.Graphics;
        var font = Fonts.Bold(9);
        var lines = content.Flags.SelectMany(f => Writing.Wrap(g, f, font, sheet.Width - 62)).ToList();
        var height = (lines.Count * Writing.LineHeight(font)) + 7;
        g.DrawRectangle(Ink.Box, Ink.Tint, sheet.Left, sheet.Y, sheet.Width, height);
        g.DrawString("Note", Fonts.Bold(10), Ink.Black, sheet.Left + 8, sheet.Y + 13);
        Writing.Lines(g, lines, font, Ink.Black, sheet.Left + 54, sheet.Y + 3);
        sheet.Y += height + 5;
    }
}
