using PdfSharp.Pdf;
using PlateTickets.Travelers.Pages;

namespace PlateTickets.Travelers;

/// <summary>Prints travelers as PDF. Safe to call from several threads at once.</summary>
public static class TravelerPdf
{
    /// <summary>One sheet's traveler.</summary>
    public static byte[] Render(TravelerContent content, TravelerPaper paper) => Render([content], paper);

    /// <summary>Several travelers in one document; each begins on a page of its own and counts its own pages.</summary>
    public static byte[] Render(IReadOnlyList<TravelerContent> contents, TravelerPaper paper)
    {
        using var document = new PdfDocument();
        document.Info.Title = contents.Count == 1 ? $"Traveler {contents[0].SheetNumberForPeople}" : $"{contents.Count} travelers";
        document.Info.Author = contents.Count == 0 ? "" : contents[0].SiteName;
        document.Info.Subject = "Plate-room traveler";
        foreach (var content in contents)
        {
            Draw(document, content, paper);
        }

        using var stream = new MemoryStream();
        document.Save(stream);
        return stream.ToArray();
    }

    private static void Draw(PdfDocument document, TravelerContent content, TravelerPaper paper)
    {
        Sheet finished;
        using (var sheet = new Sheet(document, paper, s => TitleBlock.Draw(s, content)))
        {
            var below = content.Stages.Sum(s => StationRow.Height(sheet, s)) + NoteBlock.Height(sheet, content.Stock) + NoteBlock.Height(sheet, content.Cuts);
            var listed = SheetBlock.Draw(sheet, content, below);
            NoteBlock.Draw(sheet, "Take", content.Stock);
            foreach (var (stage, index) in content.Stages.Select((s, i) => (s, i)))
            {
                StationRow.Draw(sheet, stage, index + 1);
            }

            NoteBlock.Draw(sheet, "Cut apart", content.Cuts);
            SheetBlock.DrawRest(sheet, content.Layout.Plates.Skip(listed));
            finished = sheet;
        }

        // Only now is it known how many pages there are.
        Footer.Draw(finished, content);
    }
}
