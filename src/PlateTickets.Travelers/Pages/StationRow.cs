using PdfSharp.Drawing;

namespace PlateTickets.Travelers.Pages;

/// <summary>One station: what to dial in, how long, until when, and boxes to write in with gloves on.</summary>
internal static class StationRow
{
    private const double NameMm = 33;
    private const double WhenMm = 40;
    private const double BoxesMm = 43;
    private const double BoxMm = 7.2;
    private const double BoxGap = 2;
    private const double Pad = 1.7;

    public static void Draw(Sheet sheet, TravelerStage stage, int number)
    {
        var middle = Middle(sheet);
        var height = Height(sheet, stage);
        sheet.Need(height);
        var (g, top) = (sheet.Graphics, sheet.Y);
        g.DrawLine(Ink.Box, sheet.Left, top, sheet.Right, top);
        Texts(g, stage, number, sheet.Left, top + Pad, middle);
        Boxes(g, stage, sheet.Right - Sheet.Mm(BoxesMm), top + Pad + 1);
        sheet.Y = top + height;
    }

    /// <summary>Height of the row in points.</summary>
    public static double Height(Sheet sheet, TravelerStage stage)
    {
        // Measured by writing on nothing: one code for both cannot disagree.
        return Texts(sheet.Measure, stage, 1, 0, 0, Middle(sheet)) + (2 * Pad);
    }

    /// <summary>Name, work and times side by side, the cautions below them; returns the y below all.</summary>
    private static double Texts(XGraphics g, TravelerStage stage, int number, double x, double y, double middle)
    {
        var workX = x + Sheet.Mm(NameMm) + Pad;
        var whenX = workX + middle + Pad;
        var below = Math.Max(Name(g, stage, number, x, y), Math.Max(Work(g, stage, workX, y, middle), When(g, stage, whenX, y)));
        // Below the boxes too, so that they have the whole width.
        var top = Math.Max(below, y + 1 + Sheet.Mm(2 * BoxMm) + BoxGap) + 1;
        return Writing.Paragraph(
            g, string.Join(" ", stage.Cautions), Fonts.Regular(7), Ink.Black, x, top, whenX + Sheet.Mm(WhenMm + BoxesMm) - x, most: 4);
    }

    private static double Middle(Sheet sheet) => sheet.Width - Sheet.Mm(NameMm + WhenMm + BoxesMm) - (2 * Pad);

    private static double Name(XGraphics g, TravelerStage stage, int number, double x, double y)
    {
        var width = Sheet.Mm(NameMm) - Pad;
        y = Writing.Paragraph(g, $"{number} {stage.Title}", Fonts.Bold(11.5), Ink.Black, x, y, width, most: 2);
        y = Writing.Paragraph(g, stage.Equipment, Fonts.Regular(9.5), Ink.Black, x, y + 1, width, most: 2);
        return Writing.Paragraph(g, stage.Done ?? "", Fonts.Bold(8), Ink.Black, x, y + 2, width, most: 3);
    }

    private static double Work(XGraphics g, TravelerStage stage, double x, double y, double width)
    {
        y = Writing.Paragraph(g, stage.Time, Fonts.Bold(12), Ink.Black, x, y, width, most: 1);
        y = Writing.Paragraph(g, stage.Explanation, Fonts.Regular(7.5), Ink.Grey, x, y, width, most: 3);
        return Writing.Paragraph(g, string.Join(" · ", stage.Settings.Select(Unbroken)), Fonts.Bold(8.5), Ink.Black, x, y + 1, width, most: 3);
    }

    // A setting must not be torn apart at the end of a line: "10 800" and "mJ/cm²" belong together.
    private static string Unbroken((string Name, string Value) setting) => $"{setting.Name} {setting.Value}".Replace(' ', '\u00a0');

    private static double When(XGraphics g, TravelerStage stage, double x, double y)
    {
        var width = Sheet.Mm(WhenMm) - (2 * Pad);
        y = Writing.Lines(g, ["Due-by"], Fonts.Regular(7.5), Ink.Grey, x + Pad, y);
        y = Writing.Paragraph(g, stage.DueBy, Fonts.Bold(10.5), Ink.Black, x + Pad, y, width, most: 2);
        y = Writing.Lines(g, ["Planned"], Fonts.Regular(7.5), Ink.Grey, x + Pad, y + 2);
        return Writing.Paragraph(g, stage.Planned, Fonts.Regular(8.5), Ink.Black, x + Pad, y, width, most: 2);
    }

    private static void Boxes(XGraphics g, TravelerStage stage, double x, double y)
    {
        var (width, height) = (Sheet.Mm(BoxesMm), Sheet.Mm(BoxMm));
        var half = (width - 3) / 2;
        var below = y + height + BoxGap;
        Box(g, "start", x, y, half, height);
        Box(g, "finish", x + half + 3, y, half, height);
        Box(g, "initials", x, below, stage.ReadingName.Length == 0 ? width : half, height);
        if (stage.ReadingName.Length > 0)
        {
            Box(g, stage.ReadingName, x + half + 3, below, half, height);
        }
    }

    private static void Box(XGraphics g, string label, double x, double y, double width, double height)
    {
        g.DrawRectangle(Ink.Line, x, y, width, height);
        var font = Fonts.Regular(6);
        g.DrawString(Writing.Cut(g, label, font, width - 4), font, Ink.Grey, x + 2, y + 6.2);
    }
}
