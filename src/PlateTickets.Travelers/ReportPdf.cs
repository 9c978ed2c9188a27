using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PlateTickets.Travelers.Pages;

namespace PlateTickets.Travelers;

/// <summary>One figure: its name, the value, the one before, and the change in words.</summary>
public sealed record ReportRow(string Title, string Value, string Before, string Change);

/// <summary>Figures under one heading.</summary>
public sealed record ReportSection(string Title, IReadOnlyList<ReportRow> Rows);

/// <summary>Everything that stands on a report, as text: what is not here is not printed.</summary>
public sealed record ReportContent
{
    public required string SiteName { get; init; }

    /// <summary>The days, such as "27 Oct to 25 Nov 2026".</summary>
    public required string Period { get; init; }

    /// <summary>The days that it is compared with.</summary>
    public required string Before { get; init; }

    public required string PrintedAt { get; init; }

    public required IReadOnlyList<ReportSection> Sections { get; init; }

    /// <summary>What the figures mean, a paragraph each.</summary>
    public required IReadOnlyList<string> Notes { get; init; }
}

/// <summary>Prints the report of a period as PDF: black on white, one table. Safe to call from several threads at once.</summary>
public static class ReportPdf
{
    // Shares of the width at which the three columns of figures end.
    private const double ValueEnds = 0.56, BeforeEnds = 0.73;
    private const double RowMm = 5;
    private const double HeadingMm = 8.5;

    public static byte[] Render(ReportContent content, TravelerPaper paper)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Report, {content.Period}";
        document.Info.Author = content.SiteName;
        document.Info.Subject = "Plate-room report";
        Sheet finished;
        using (var sheet = new Sheet(document, paper, s => Head(s, content)))
        {
            foreach (var section in content.Sections)
            {
                // A heading never stands alone at the foot of a page.
                sheet.Need(Sheet.Mm(HeadingMm + (Math.Min(2, section.Rows.Count) * RowMm)));
                sheet.Y += Sheet.Mm(2.5);
                sheet.Graphics.DrawString(section.Title, Fonts.Bold(11), Ink.Black, sheet.Left, sheet.Y + 11);
                sheet.Y += Sheet.Mm(HeadingMm - 2.5);
                foreach (var row in section.Rows)
                {
                    sheet.Need(Sheet.Mm(RowMm));
                    Row(sheet, row);
                }
            }

            Notes(sheet, content.Notes);
            finished = sheet;
        }

        // Only now is it known how many pages there are.
        Foot(finished, content);
        using var stream = new MemoryStream();
        document.Save(stream);
        return stream.ToArray();
    }

    private static void Head(Sheet sheet, ReportContent content)
    {
        var g = sheet.Graphics;
        if (sheet.IsFirstPage)
        {
            sheet.Y = Writing.Paragraph(g, content.SiteName, Fonts.Regular(10), Ink.Grey, sheet.Left, sheet.Y, sheet.Width, most: 1);
            sheet.Y = Writing.Paragraph(g, $"Report, {content.Period}", Fonts.Bold(18), Ink.Black, sheet.Left, sheet.Y, sheet.Width, most: 2);
            sheet.Y = Writing.Paragraph(g, $"Compared with {content.Before}", Fonts.Regular(10), Ink.Black, sheet.Left, sheet.Y, sheet.Width, most: 1) + Sheet.Mm(2);
        }

        var font = Fonts.Bold(8.5);
        g.DrawRectangle(Ink.Tint, sheet.Left, sheet.Y, sheet.Width, Sheet.Mm(RowMm + 1));
        var y = sheet.Y + Sheet.Mm((RowMm + 1) / 2);
        Cell(g, "Figure", font, sheet.Left + 4, sheet.Width / 3, y, XStringFormats.CenterLeft);
        Cell(g, "Value", font, sheet.Left, sheet.Width * ValueEnds, y, XStringFormats.CenterRight);
        Cell(g, "Before", font, sheet.Left, sheet.Width * BeforeEnds, y, XStringFormats.CenterRight);
        Cell(g, "Change", font, sheet.Left, sheet.Width - 4, y, XStringFormats.CenterRight);
        sheet.Y += Sheet.Mm(RowMm + 1);
    }

    private static void Row(Sheet sheet, ReportRow row)
    {
        var g = sheet.Graphics;
        var y = sheet.Y + Sheet.Mm(RowMm / 2);
        var (plain, bold) = (Fonts.Regular(9), Fonts.Bold(9));
        var title = sheet.Width * (ValueEnds - 0.14);
        Cell(g, Writing.Cut(g, row.Title, plain, title), plain, sheet.Left + 4, title, y, XStringFormats.CenterLeft);
        Cell(g, row.Value, bold, sheet.Left, sheet.Width * ValueEnds, y, XStringFormats.CenterRight);
        Cell(g, row.Before, plain, sheet.Left, sheet.Width * BeforeEnds, y, XStringFormats.CenterRight);
        Cell(g, row.Change, plain, sheet.Left, sheet.Width - 4, y, XStringFormats.CenterRight);
        sheet.Y += Sheet.Mm(RowMm);
        g.DrawLine(Ink.Line, sheet.Left, sheet.Y, sheet.Right, sheet.Y);
    }

    private static void Notes(Sheet sheet, IReadOnlyList<string> notes)
    {
        var font = Fonts.Regular(8);
        sheet.Y += Sheet.Mm(4);
        foreach (var note in notes)
        {
            var lines = Writing.Wrap(sheet.Graphics, note, font, sheet.Width);
            sheet.Need((lines.Count * Writing.LineHeight(font)) + 3);
            sheet.Y = Writing.Lines(sheet.Graphics, lines, font, Ink.Grey, sheet.Left, sheet.Y) + 3;
        }
    }

    private static void Foot(Sheet sheet, ReportContent content)
    {
        for (var i = 0; i < sheet.Pages.Count; i++)
        {
            using var g = XGraphics.FromPdfPage(sheet.Pages[i]);
            var y = sheet.Bottom + 3;
            g.DrawLine(Ink.Box, sheet.Left, y, sheet.Right, y);
            g.DrawString(Writing.Cut(g, $"{content.SiteName} · printed {content.PrintedAt}", Fonts.Regular(7.5), sheet.Width - 100), Fonts.Regular(7.5), Ink.Grey, sheet.Left, y + 12);
            g.DrawString($"page {i + 1} of {sheet.Pages.Count}", Fonts.Bold(8), Ink.Black, new XRect(sheet.Right - 100, y + 3, 100, 12), XStringFormats.CenterRight);
        }
    }

    private static void Cell(XGraphics g, string text, XFont font, double x, double width, double middle, XStringFormat format) =>
        g.DrawString(text, font, Ink.Black, new XRect(x, middle - 6, width, 12), format);
}
