using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PlateTickets.Travelers.Pages;

namespace PlateTickets.Travelers;

/// <summary>Prints a handover: notes first, then tables that go on over the pages with their heads repeated.</summary>
public static class HandoverPdf
{
    private const double Cell = 8.5;
    private const double Pad = 2.5;

    // A column never gets narrower than this share of the width, however short its texts are.
    private const double Narrowest = 0.08;
    private const int MostCellLines = 6;

    public static byte[] Render(HandoverContent content, TravelerPaper paper)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Handover: {content.Title}";
        document.Info.Author = content.SiteName;
        Sheet finished;
        using (var sheet = new Sheet(document, paper, s => Head(s, content)))
        {
            Notes(sheet, "Notes", content.Notes.Length == 0 ? "No notes." : content.Notes);
            if (content.Remark.Length > 0)
            {
                Notes(sheet, "", content.Remark);
            }

            sheet.Need(14);
            sheet.Y = Writing.Paragraph(sheet.Graphics, content.AsOf, Fonts.Regular(8), Ink.Grey, sheet.Left, sheet.Y, sheet.Width) + 2;
            foreach (var table in content.Sections.Where(s => s.Rows.Count > 0 || s.Nothing.Length > 0))
            {
                Table(sheet, table);
            }

            finished = sheet;
        }

        Foot(finished, content);
        using var stream = new MemoryStream();
        document.Save(stream);
        return stream.ToArray();
    }

    private static void Head(Sheet sheet, HandoverContent content)
    {
        var g = sheet.Graphics;
        if (!sheet.IsFirstPage)
        {
            sheet.Y = Writing.Paragraph(g, $"Handover: {content.Title}, continued", Fonts.Bold(9.5), Ink.Black, sheet.Left, sheet.Y, sheet.Width, most: 1) + 6;
            return;
        }

        var y = Writing.Paragraph(g, $"{content.SiteName} · Handover", Fonts.Regular(9), Ink.Grey, sheet.Left, sheet.Y, sheet.Width, most: 1);
        y = Writing.Paragraph(g, content.Title, Fonts.Bold(16), Ink.Black, sheet.Left, y + 1, sheet.Width, most: 2);
        y = Writing.Paragraph(g, content.Signed, Fonts.Bold(9.5), Ink.Black, sheet.Left, y + 3, sheet.Width, most: 3);
        g.DrawLine(Ink.Heavy, sheet.Left, y + 4, sheet.Right, y + 4);
        sheet.Y = y + 10;
    }

    // Line by line, so that long notes go on over the pages.
    private static void Notes(Sheet sheet, string title, string text)
    {
        if (title.Length > 0)
        {
            Heading(sheet, title, 30);
        }

        var font = Fonts.Regular(10);
        foreach (var line in text.ReplaceLineEndings("\n").Split('\n').SelectMany(l => Writing.Wrap(sheet.Measure, l, font, sheet.Width)))
        {
            sheet.Need(Writing.LineHeight(font));
            sheet.Y = Writing.Lines(sheet.Graphics, [line], font, Ink.Black, sheet.Left, sheet.Y);
        }

        sheet.Y += 4;
    }

    private static void Heading(Sheet sheet, string title, double withNext)
    {
        sheet.Need(18 + withNext);
        sheet.Y = Writing.Lines(sheet.Graphics, [title], Fonts.Bold(11), Ink.Black, sheet.Left, sheet.Y + 4) + 1;
    }

    private static void Table(Sheet sheet, HandoverTable table)
    {
        Heading(sheet, table.Rows.Count > 0 && table.Columns.Count > 3 ? $"{table.Title}: {table.Rows.Count}" : table.Title, 36);
        if (table.Rows.Count == 0)
        {
            sheet.Y = Writing.Paragraph(sheet.Graphics, table.Nothing, Fonts.Regular(9.5), Ink.Black, sheet.Left, sheet.Y, sheet.Width) + 2;
            return;
        }

        var widths = Widths(sheet, table);
        ColumnHeads(sheet, table, widths);
        var font = Fonts.Regular(Cell);
        foreach (var row in table.Rows)
        {
            var cells = row.Select((text, c) => Writing.Wrap(sheet.Measure, text, font, widths[c] - (2 * Pad), MostCellLines)).ToList();
            var height = (cells.Max(c => c.Count) * Writing.LineHeight(font)) + (2 * Pad);
            var pages = sheet.Pages.Count;
            sheet.Need(height);
            if (sheet.Pages.Count > pages)
            {
                ColumnHeads(sheet, table, widths);
            }

            var x = sheet.Left;
            for (var c = 0; c < cells.Count; c++)
            {
                Writing.Lines(sheet.Graphics, cells[c], font, Ink.Black, x + Pad, sheet.Y + Pad);
                x += widths[c];
            }

            sheet.Y += height;
            sheet.Graphics.DrawLine(Ink.Line, sheet.Left, sheet.Y, sheet.Left + widths.Sum(), sheet.Y);
        }

        if (table.More.Length > 0)
        {
            sheet.Need(14);
            sheet.Y = Writing.Paragraph(sheet.Graphics, table.More, Fonts.Bold(9), Ink.Black, sheet.Left, sheet.Y + 2, sheet.Width);
        }

        sheet.Y += 4;
    }

    private static void ColumnHeads(Sheet sheet, HandoverTable table, double[] widths)
    {
        var font = Fonts.Bold(7.5);
        var height = Writing.LineHeight(font) + 4;
        sheet.Graphics.DrawRectangle(Ink.Tint, sheet.Left, sheet.Y, widths.Sum(), height);
        var x = sheet.Left;
        for (var c = 0; c < widths.Length; c++)
        {
            Writing.Paragraph(sheet.Graphics, table.Columns[c], font, Ink.Grey, x + Pad, sheet.Y + 2, widths[c] - (2 * Pad), most: 1);
            x += widths[c];
        }

        sheet.Y += height;
    }

    // Each column gets what its widest text wants; when that is too much, only the wide ones give way.
    private static double[] Widths(Sheet sheet, HandoverTable table)
    {
        var (head, font) = (Fonts.Bold(7.5), Fonts.Regular(Cell));
        var wanted = table.Columns.Select((column, c) => (2 * Pad) + 1 + Math.Max(
            sheet.Measure.MeasureString(column, head).Width,
            table.Rows.Max(r => sheet.Measure.MeasureString(r[c], font).Width))).ToArray();
        var least = sheet.Width * Narrowest;
        if (wanted.Sum() <= sheet.Width)
        {
            return [.. wanted.Select(w => Math.Max(w, least))];
        }

        var fair = sheet.Width / wanted.Length;
        var kept = wanted.Where(w => w <= fair).Sum();
        var wide = wanted.Where(w => w > fair).Sum();
        return [.. wanted.Select(w => w <= fair ? w : w / wide * (sheet.Width - kept))];
    }

    private static void Foot(Sheet sheet, HandoverContent content)
    {
        for (var i = 0; i < sheet.Pages.Count; i++)
        {
            using var g = XGraphics.FromPdfPage(sheet.Pages[i]);
            var y = sheet.Bottom + 6;
            g.DrawLine(Ink.Box, sheet.Left, y, sheet.Right, y);
            g.DrawString($"Printed {content.PrintedAt}", Fonts.Regular(7.5), Ink.Grey, sheet.Left, y + 12);
            g.DrawString($"page {i + 1} of {sheet.Pages.Count}", Fonts.Bold(8), Ink.Black, new XRect(sheet.Right - 100, y + 3, 100, 12), XStringFormats.CenterRight);
        }
    }
}
