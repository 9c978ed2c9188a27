using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PlateTickets.Travelers.Pages;

namespace PlateTickets.Travelers;

/// <summary>One drawer to label.</summary>
/// <param name="Number">Its number without spaces, as both codes hold it.</param>
/// <param name="NumberForPeople">The same in groups.</param>
/// <param name="Title">What stands largest, such as "Drawer 3".</param>
public sealed record DrawerLabel(string Number, string NumberForPeople, string Title);

/// <summary>Labels to cut out and stick on the drawers of a dryer, two beside each other.</summary>
public static class DrawerLabelsPdf
{
    private const double HeightMm = 42;
    private const double QrMm = 27;

    public static byte[] Render(string machine, IReadOnlyList<DrawerLabel> labels, TravelerPaper paper)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Drawers of {machine}";
        using (var sheet = new Sheet(document, paper, _ => { }))
        {
            for (var i = 0; i < labels.Count; i += 2)
            {
                sheet.Need(Sheet.Mm(HeightMm));
                Draw(sheet, machine, labels[i], sheet.Left);
                if (i + 1 < labels.Count)
                {
                    Draw(sheet, machine, labels[i + 1], sheet.Left + (sheet.Width / 2));
                }

                sheet.Y += Sheet.Mm(HeightMm);
            }
        }

        using var stream = new MemoryStream();
        document.Save(stream);
        return stream.ToArray();
    }

    private static void Draw(Sheet sheet, string machine, DrawerLabel label, double x)
    {
        var g = sheet.Graphics;
        var (width, top) = (sheet.Width / 2, sheet.Y);
        g.DrawRectangle(Ink.Heavy, new XRect(x, top, width - Sheet.Mm(3), Sheet.Mm(HeightMm - 3)));
        var inner = x + Sheet.Mm(3);
        var y = Writing.Lines(g, [label.Title], Fonts.Bold(20), Ink.Black, inner, top + Sheet.Mm(2));
        Writing.Lines(g, [machine], Fonts.Regular(10), Ink.Black, inner, y);
        CodeDrawing.Bars(g, label.Number, inner - Sheet.Mm(3), top + Sheet.Mm(17));
        g.DrawString(label.NumberForPeople, Fonts.MonoBold(11), Ink.Black, inner, top + Sheet.Mm(17 + CodeDrawing.BarHeightMm + 5));
        var qr = Sheet.Mm(QrMm);
        CodeDrawing.Qr(g, label.Number, x + width - Sheet.Mm(4) - qr, top + Sheet.Mm(6), qr);
    }
}
