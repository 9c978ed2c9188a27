using PdfSharp.Drawing;

namespace PlateTickets.Travelers.Pages;

/// <summary>Text that wraps, or is cut with an ellipsis, and never runs into its neighbour.</summary>
internal static class Writing
{
    private const string Ellipsis = "…";

    /// <summary>Lines no wider than the width. A word that is longer than a line is broken; what goes beyond the most lines is cut with an ellipsis.</summary>
    public static List<string> Wrap(XGraphics graphics, string text, XFont font, double width, int most = int.MaxValue)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in Words(graphics, text, font, width))
        {
            var longer = line.Length == 0 ? word : $"{line} {word}";
            if (graphics.MeasureString(longer, font).Width <= width)
            {
                line = longer;
                continue;
            }

            lines.Add(line);
            line = word;
        }

        lines.Add(line);
        if (lines.Count <= most)
        {
            return lines;
        }

        lines[most - 1] = Cut(graphics, $"{lines[most - 1]} {lines[most]}", font, width);
        return lines[..most];
    }

    /// <summary>One line, cut with an ellipsis when it is too long.</summary>
    public static string Cut(XGraphics graphics, string text, XFont font, double width)
    {
        if (graphics.MeasureString(text, font).Width <= width)
        {
            return text;
        }

        var (low, high) = (0, text.Length);
        while (low < high)
        {
            var middle = (low + high + 1) / 2;
            if (graphics.MeasureString(text[..middle].TrimEnd() + Ellipsis, font).Width <= width)
            {
                low = middle;
            }
            else
            {
                high = middle - 1;
            }
        }

        return text[..low].TrimEnd() + Ellipsis;
    }

    public static double LineHeight(XFont font) => font.Size * 1.22;

    /// <summary>Writes lines from a top; returns the y below them.</summary>
    public static double Lines(XGraphics graphics, IEnumerable<string> lines, XFont font, XBrush brush, double x, double y)
    {
        foreach (var line in lines)
        {
            graphics.DrawString(line, font, brush, x, y + font.Size);
            y += LineHeight(font);
        }

        return y;
    }

    public static double Paragraph(XGraphics graphics, string text, XFont font, XBrush brush, double x, double y, double width, int most = int.MaxValue) =>
        text.Length == 0 ? y : Lines(graphics, Wrap(graphics, text, font, width, most), font, brush, x, y);

    private static IEnumerable<string> Words(XGraphics graphics, string text, XFont font, double width)
    {
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var rest = word;
            while (graphics.MeasureString(rest, font).Width > width && rest.Length > 1)
            {
                var fits = rest.Length - 1;
                while (fits > 1 && graphics.MeasureString(rest[..fits], font).Width > width)
                {
                    fits--;
                }

                yield return rest[..fits];
                rest = rest[fits..];
            }

            yield return rest;
        }
    }
}
