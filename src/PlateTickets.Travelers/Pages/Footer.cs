using PdfSharp.Drawing;

namespace PlateTickets.Travelers.Pages;

/// <summary>Foot of each page: cautions for the whole paper, print time, page n of m.</summary>
internal static class Footer
{
    public static void Draw(Sheet sheet, TravelerContent content)
    {
        for (var i = 0; i < sheet.Pages.Count; i++)
        {
            using var g = XGraphics.FromPdfPage(sheet.Pages[i]);
            var y = sheet.Bottom + 3;
            g.DrawLine(Ink.Box, sheet.Left, y, sheet.Right, y);
            y = Writing.Paragraph(g, string.Join(" ", content.ClosingCautions), Fonts.Regular(7), Ink.Black, sheet.Left, y + 2, sheet.Width, most: 2);
            var font = Fonts.Regular(7.5);
            var reprint = content.ReprintNumber > 0 ? $" · REPRINT {content.ReprintNumber}" : "";
            var left = $"Recipe {content.Recipe} · printed {content.PrintedAt}{reprint}";
            g.DrawString(Writing.Cut(g, left, font, sheet.Width - 150), font, Ink.Grey, sheet.Left, y + 10);
            g.DrawString(
                $"{content.SheetNumberForPeople} · page {i + 1} of {sheet.Pages.Count}", Fonts.Bold(8), Ink.Black,
                new XRect(sheet.Right - 150, y + 1, 150, 12), XStringFormats.CenterRight);
        }
    }
}
