using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PlateTickets.Travelers.Pages;

namespace PlateTickets.Travelers;

/// <summary>One colour of a confirmed order.</summary>
/// <param name="Colour">Its name.</param>
/// <param name="Swatch">"#rrggbb" or null.</param>
/// <param name="Size">Across × around, as text.</param>
/// <param name="Copies">Plates of it.</param>
public sealed record ConfirmedColour(string Colour, string? Swatch, string Size, int Copies);

/// <summary>What an order confirmation says; everything is text already.</summary>
/// <param name="SiteName">The plate room.</param>
/// <param name="Number">The ticket's number without spaces.</param>
/// <param name="NumberForPeople">The same in groups.</param>
/// <param name="Facts">Name and value: customer, job, press, material, entered.</param>
/// <param name="Due">When the customer wants it.</param>
/// <param name="Promise">When it will be done, in a sentence.</param>
/// <param name="Colours">One line for each separation; empty while the files are missing.</param>
/// <param name="Notes">More to say, such as that the files are missing.</param>
/// <param name="PrintedAt">When this was printed.</param>
public sealed record ConfirmationContent(
    string SiteName, string Number, string NumberForPeople, IReadOnlyList<(string Name, string Value)> Facts, string Due, string Promise,
    IReadOnlyList<ConfirmedColour> Colours, IReadOnlyList<string> Notes, string PrintedAt);

/// <summary>Prints the confirmation that goes to the customer.</summary>
public static class ConfirmationPdf
{
    private const double NameMm = 32;

    public static byte[] Render(ConfirmationContent content, TravelerPaper paper)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Order confirmation {content.NumberForPeople}";
        document.Info.Author = content.SiteName;
        Sheet finished;
        using (var sheet = new Sheet(document, paper, s => Head(s, content)))
        {
            foreach (var (name, value) in content.Facts)
            {
                Fact(sheet, name, value);
            }

            Times(sheet, content);
            Colours(sheet, content);
            foreach (var note in content.Notes)
            {
                var font = Fonts.Regular(10);
                sheet.Need(Writing.LineHeight(font) * 3);
                sheet.Y = Writing.Paragraph(sheet.Graphics, note, font, Ink.Black, sheet.Left, sheet.Y + 6, sheet.Width);
            }

            finished = sheet;
        }

        for (var i = 0; i < finished.Pages.Count; i++)
        {
            using var g = XGraphics.FromPdfPage(finished.Pages[i]);
            var font = Fonts.Regular(8);
            g.DrawLine(Ink.Line, finished.Left, finished.Bottom + 8, finished.Right, finished.Bottom + 8);
            g.DrawString($"{content.SiteName} · printed {content.PrintedAt}", font, Ink.Grey, finished.Left, finished.Bottom + 20);
            g.DrawString($"{content.NumberForPeople} · page {i + 1} of {finished.Pages.Count}", font, Ink.Grey, new XRect(finished.Left, finished.Bottom + 11, finished.Width, 12), XStringFormats.CenterRight);
        }

        using var stream = new MemoryStream();
        document.Save(stream);
        return stream.ToArray();
    }

    private static void Head(Sheet sheet, ConfirmationContent content)
    {
        var g = sheet.Graphics;
        if (!sheet.IsFirstPage)
        {
            sheet.Y = Writing.Lines(g, [$"Order confirmation {content.NumberForPeople}, continued"], Fonts.Bold(11), Ink.Black, sheet.Left, sheet.Y) + 8;
            return;
        }

        var bars = Sheet.Mm(CodeDrawing.BarWidthMm(content.Number));
        CodeDrawing.Bars(g, content.Number, sheet.Right - bars, sheet.Y + 2);
        var width = sheet.Width - bars - 8;
        var y = Writing.Paragraph(g, content.SiteName, Fonts.Regular(11), Ink.Grey, sheet.Left, sheet.Y, width, most: 1);
        y = Writing.Lines(g, ["Order confirmation"], Fonts.Bold(24), Ink.Black, sheet.Left, y + 2);
        y = Writing.Lines(g, [content.NumberForPeople], Fonts.MonoBold(14), Ink.Black, sheet.Left, y + 2);
        sheet.Y = y + 12;
    }

    private static void Fact(Sheet sheet, string name, string value)
    {
        var (font, width) = (Fonts.Regular(11), sheet.Width - Sheet.Mm(NameMm));
        var lines = Writing.Wrap(sheet.Graphics, value, font, width);
        sheet.Need((lines.Count * Writing.LineHeight(font)) + 4);
        Writing.Lines(sheet.Graphics, [name], font, Ink.Grey, sheet.Left, sheet.Y);
        sheet.Y = Writing.Lines(sheet.Graphics, lines, font, Ink.Black, sheet.Left + Sheet.Mm(NameMm), sheet.Y) + 3;
    }

    private static void Times(Sheet sheet, ConfirmationContent content)
    {
        var (font, inner) = (Fonts.Regular(11), sheet.Width - 20);
        var promise = Writing.Wrap(sheet.Graphics, content.Promise, font, inner);
        var height = 32 + (promise.Count * Writing.LineHeight(font)) + 8;
        sheet.Y += 8;
        sheet.Need(height);
        sheet.Graphics.DrawRectangle(Ink.Heavy, sheet.Left, sheet.Y, sheet.Width, height);
        var y = Writing.Lines(sheet.Graphics, [$"Due {content.Due}"], Fonts.Bold(16), Ink.Black, sheet.Left + 10, sheet.Y + 8);
        Writing.Lines(sheet.Graphics, promise, font, Ink.Black, sheet.Left + 10, y + 4);
        sheet.Y += height + 14;
    }

    private static void Colours(Sheet sheet, ConfirmationContent content)
    {
        if (content.Colours.Count == 0)
        {
            return;
        }

        var (head, font) = (Fonts.Bold(10), Fonts.Regular(11));
        double[] columns = [sheet.Left, sheet.Left + (sheet.Width * 0.5), sheet.Right - Sheet.Mm(18)];
        sheet.Need(40);
        sheet.Graphics.DrawString("Colour", head, Ink.Black, columns[0], sheet.Y + 10);
        sheet.Graphics.DrawString("Plate, across × around", head, Ink.Black, columns[1], sheet.Y + 10);
        sheet.Graphics.DrawString("Plates", head, Ink.Black, new XRect(columns[2], sheet.Y, Sheet.Mm(18), 13), XStringFormats.CenterRight);
        sheet.Y += 15;
        foreach (var colour in content.Colours)
        {
            sheet.Need(18);
            sheet.Graphics.DrawLine(Ink.Line, sheet.Left, sheet.Y, sheet.Right, sheet.Y);
            if (Ink.Swatch(colour.Swatch) is { } swatch)
            {
                sheet.Graphics.DrawRectangle(Ink.Line, swatch, columns[0], sheet.Y + 4, 10, 10);
            }

            sheet.Graphics.DrawString(Writing.Cut(sheet.Graphics, colour.Colour, font, columns[1] - columns[0] - 24), font, Ink.Black, columns[0] + 16, sheet.Y + 13);
            sheet.Graphics.DrawString(colour.Size, font, Ink.Black, columns[1], sheet.Y + 13);
            sheet.Graphics.DrawString($"{colour.Copies}", font, Ink.Black, new XRect(columns[2], sheet.Y + 2, Sheet.Mm(18), 14), XStringFormats.CenterRight);
            sheet.Y += 18;
        }

        sheet.Graphics.DrawLine(Ink.Line, sheet.Left, sheet.Y, sheet.Right, sheet.Y);
        sheet.Y += 4;
    }
}
