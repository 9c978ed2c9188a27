namespace PlateTickets.Travelers.Pages;

/// <summary>A paragraph over the whole width with a word in front: where the sheet is taken from, how it is cut apart.</summary>
internal static class NoteBlock
{
    private const double TitleMm = 17;
    private const double Pad = 1.5;

    public static double Height(Sheet sheet, string text) =>
        text.Length == 0 ? 0 : (Lines(sheet, text).Count * Writing.LineHeight(Fonts.Regular(8))) + (2 * Pad);

    public static void Draw(Sheet sheet, string title, string text)
    {
        if (text.Length == 0)
        {
            return;
        }

        sheet.Need(Height(sheet, text));
        Writing.Paragraph(sheet.Graphics, title, Fonts.Bold(8), Ink.Black, sheet.Left, sheet.Y + Pad, Sheet.Mm(TitleMm), most: 1);
        sheet.Y = Writing.Lines(sheet.Graphics, Lines(sheet, text), Fonts.Regular(8), Ink.Black, sheet.Left + Sheet.Mm(TitleMm), sheet.Y + Pad) + Pad;
    }

    private static List<string> Lines(Sheet sheet, string text) =>
        Writing.Wrap(sheet.Graphics, text, Fonts.Regular(8), sheet.Width - Sheet.Mm(TitleMm));
}
