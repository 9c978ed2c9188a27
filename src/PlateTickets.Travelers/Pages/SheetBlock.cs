namespace PlateTickets.Travelers.Pages;

/// <summary>The layout drawing with the tickets and the plate list beside it; a long list goes on to further pages.</summary>
internal static class SheetBlock
{
    private const double DrawingWidthMm = 62;
    private const double LowestDrawingMm = 35;
    private const double HighestDrawingMm = 80;
    private const double Row = 12;

    /// <summary>Draws the block and returns how many plates of the list it holds.</summary>
    /// <param name="sheet">The paper.</param>
    /// <param name="content">The traveler.</param>
    /// <param name="below">Height in points that the stations want below it on the same page.</param>
    public static int Draw(Sheet sheet, TravelerContent content, double below)
    {
        var height = Math.Clamp(sheet.Bottom - sheet.Y - below - 6, Sheet.Mm(LowestDrawingMm), Sheet.Mm(HighestDrawingMm));
        var top = sheet.Y;
        var drawing = LayoutDrawing.Draw(sheet.Graphics, content, sheet.Left, top, Sheet.Mm(DrawingWidthMm), height);
        var x = sheet.Left + Sheet.Mm(DrawingWidthMm + 4);
        var width = sheet.Right - x;
        var y = Tickets(sheet, content.Tickets, x, top, width);
        y = Heading(sheet, x, y + 4, width);
        var plates = content.Layout.Plates;
        var room = Math.Max(4, (int)((top + drawing - y) / Row));
        // A list that runs over by a line or two makes the block longer; a really long one goes on at the end.
        var here = plates.Count <= room + 3 ? plates.Count : room - 1;
        foreach (var plate in plates.Take(here))
        {
            y = Plate(sheet, plate, x, y, width);
        }

        if (here < plates.Count)
        {
            Writing.Paragraph(sheet.Graphics, $"and {plates.Count - here} more plates after the stations", Fonts.Bold(8.5), Ink.Black, x, y + 1, width, most: 1);
            y += Row;
        }

        sheet.Y = Math.Max(y, top + drawing) + 2;
        return here;
    }

    /// <summary>The plates that the first page had no room for.</summary>
    public static void DrawRest(Sheet sheet, IEnumerable<TravelerPlate> plates)
    {
        var headed = false;
        foreach (var plate in plates)
        {
            var page = sheet.Pages.Count;
            sheet.Need(Row + 16);
            if (!headed || page != sheet.Pages.Count)
            {
                sheet.Y = Heading(sheet, sheet.Left, sheet.Y + 4, sheet.Width);
                headed = true;
            }

            sheet.Y = Plate(sheet, plate, sheet.Left, sheet.Y, sheet.Width);
        }
    }

    private static double Tickets(Sheet sheet, IReadOnlyList<TravelerTicket> tickets, double x, double y, double width)
    {
        foreach (var ticket in tickets)
        {
            var g = sheet.Graphics;
            y = Writing.Paragraph(g, $"{ticket.Customer}: {ticket.Title}", Fonts.Bold(10), Ink.Black, x, y, width, most: 2);
            y = Writing.Paragraph(g, $"Ticket {ticket.NumberForPeople} · {ticket.Press} · due {ticket.Due}", Fonts.Regular(8.5), Ink.Grey, x, y, width, most: 2) + 2;
        }

        return y;
    }

    private static double Heading(Sheet sheet, double x, double y, double width)
    {
        var font = Fonts.Bold(7.5);
        sheet.Graphics.DrawString("Plate", font, Ink.Grey, x, y + 8);
        sheet.Graphics.DrawString("Colour", font, Ink.Grey, x + 26, y + 8);
        sheet.Graphics.DrawString("Across × around", font, Ink.Grey, x + (width * 0.5), y + 8);
        sheet.Graphics.DrawString("Ticket", font, Ink.Grey, x + (width * 0.76), y + 8);
        sheet.Graphics.DrawLine(Ink.Line, x, y + 10.5, x + width, y + 10.5);
        return y + 11;
    }

    private static double Plate(Sheet sheet, TravelerPlate plate, double x, double y, double width)
    {
        var g = sheet.Graphics;
        var font = Fonts.Regular(8.5);
        g.DrawString(plate.Mark, Fonts.Bold(9), Ink.Black, x, y + 9);
        if (Ink.Swatch(plate.SwatchRgb) is { } swatch)
        {
            g.DrawRectangle(Ink.Line, swatch, x + 15, y + 2.5, 7, 7);
        }

        var colour = plate.Rotated ? $"{plate.Colour}, turned" : plate.Colour;
        g.DrawString(Writing.Cut(g, colour, Fonts.Bold(8.5), (width * 0.5) - 29), Fonts.Bold(8.5), Ink.Black, x + 26, y + 9);
        g.DrawString(Writing.Cut(g, plate.Size, font, (width * 0.26) - 3), font, Ink.Black, x + (width * 0.5), y + 9);
        g.DrawString(Writing.Cut(g, plate.TicketNumberForPeople, Fonts.MonoBold(7.5), width * 0.24), Fonts.MonoBold(7.5), Ink.Black, x + (width * 0.76), y + 9);
        return y + Row;
    }
}
