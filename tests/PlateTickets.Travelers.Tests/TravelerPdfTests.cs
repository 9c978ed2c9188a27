using PlateTickets.Tests.Shared;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;

namespace PlateTickets.Travelers.Tests;

public class TravelerPdfTests
{
    public static TheoryData<TravelerPaper> Papers => [TravelerPaper.A4, TravelerPaper.Letter];

    /// <summary>Read back by an independent decoder from the page as a printer would draw it.</summary>
    [Theory]
    [InlineData(TravelerPaper.A4, 200)]
    [InlineData(TravelerPaper.A4, 600)]
    [InlineData(TravelerPaper.Letter, 200)]
    [InlineData(TravelerPaper.Letter, 600)]
    public void BothCodes_AreReadFromThePicture(TravelerPaper paper, int dotsPerInch)
    {
        var folder = Directory.CreateTempSubdirectory("traveler-").FullName;
        try
        {
            var pdf = Path.Combine(folder, "t.pdf");
            File.WriteAllBytes(pdf, TravelerPdf.Render(Samples.Usual, paper));
            Tool.Run("poppler-utils", "pdftoppm", "-r", $"{dotsPerInch}", "-png", "-singlefile", pdf, Path.Combine(folder, "t"));
            var read = Tool.Run("zbar-tools", "zbarimg", "-q", Path.Combine(folder, "t.png")).Split('\n', StringSplitOptions.RemoveEmptyEntries).Order();
            Assert.Equal([$"CODE-128:{Samples.Usual.SheetNumber}", $"QR-Code:{Samples.Usual.SheetNumber}"], read);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void UsualSheet_IsOnePageThatSaysEverything(TravelerPaper paper)
    {
        using var pdf = PdfDocument.Open(TravelerPdf.Render(Samples.Usual, paper));
        Assert.Equal(1, pdf.NumberOfPages);
        var text = Text(pdf.GetPage(1));
        var content = Samples.Usual;
        string[] expected =
        [
            content.SheetNumberForPeople, content.Due, content.Recipe, content.Material, content.SheetSize, content.Tickets[0].Customer, content.Tickets[0].Title,
            content.Tickets[0].NumberForPeople, "page 1 of 1", "local codes", "Due-by", "initials", "finish",
            .. content.Layout.Plates.SelectMany(p => new[] { p.Colour, p.Size }),
            .. content.Stages.SelectMany(s => new[] { s.Title, s.Equipment, s.Time, s.ReadingName, "M009" }),
            .. content.Stages.SelectMany(s => s.Settings.Select(p => p.Value)),
        ];
        Assert.All(expected, e => Assert.Contains(Squeeze(e), text, StringComparison.Ordinal));
    }

    [Fact]
    public void PaperSizes_AreA4AndLetter()
    {
        using var a4 = PdfDocument.Open(TravelerPdf.Render(Samples.Usual, TravelerPaper.A4));
        using var letter = PdfDocument.Open(TravelerPdf.Render(Samples.Usual, TravelerPaper.Letter));
        // ISO 216: A4 is 210 x 297 mm; ANSI/ASME Y14.1: size A (Letter) is 8.5 x 11 in.
        Assert.Equal((210, 297), (Mm(a4.GetPage(1).Width), Mm(a4.GetPage(1).Height)));
        Assert.Equal((612, 792), (letter.GetPage(1).Width, letter.GetPage(1).Height));
    }

    [Theory]
    [MemberData(nameof(Papers))]
    public void SixtyPlates_GoOnToFurtherPages_AndNoneIsLost(TravelerPaper paper)
    {
        using var pdf = PdfDocument.Open(TravelerPdf.Render(Samples.SixtyPlates, paper));
        Assert.True(pdf.NumberOfPages > 1);
        var pages = pdf.GetPages().ToList();
        Assert.All(pages, p =>
        {
            Assert.Contains(Squeeze($"page {p.Number} of {pages.Count}"), Text(p), StringComparison.Ordinal);
            Assert.Contains(Squeeze(Samples.SixtyPlates.SheetNumberForPeople), Text(p), StringComparison.Ordinal);
        });
        // Each plate's line holds its size; every plate has one line.
        var size = Squeeze(Samples.SixtyPlates.Layout.Plates[0].Size);
        Assert.Equal(60, pages.Sum(p => Text(p).Split(size).Length - 1));
    }

    [Fact]
    public void Reprint_IsMarked_AndFlagsAndDoneStagesAreShown()
    {
        using var pdf = PdfDocument.Open(TravelerPdf.Render(Samples.LongTexts, TravelerPaper.A4));
        var text = Text(pdf.GetPage(1));
        Assert.Contains(Squeeze("REPRINT 2: destroy older copies"), text, StringComparison.Ordinal);
        Assert.Contains(Squeeze("older than 7 d"), text, StringComparison.Ordinal);
        Assert.Contains(Squeeze("Done Wed 25 Nov"), text, StringComparison.Ordinal);
    }

    public static TheoryData<string, TravelerPaper> Everything => new()
    {
        { nameof(Samples.Usual), TravelerPaper.A4 }, { nameof(Samples.Usual), TravelerPaper.Letter },
        { nameof(Samples.LongTexts), TravelerPaper.A4 }, { nameof(Samples.LongTexts), TravelerPaper.Letter },
        { nameof(Samples.ThreeTickets), TravelerPaper.A4 }, { nameof(Samples.ThreeTickets), TravelerPaper.Letter },
        { nameof(Samples.SixtyPlates), TravelerPaper.A4 }, { nameof(Samples.SixtyPlates), TravelerPaper.Letter },
    };

    [Theory]
    [MemberData(nameof(Everything))]
    public void Words_LieInsideTheMargins_AndNeverOnEachOther(string sample, TravelerPaper paper)
    {
        using var pdf = PdfDocument.Open(TravelerPdf.Render(Sample(sample), paper));
        foreach (var page in pdf.GetPages())
        {
            var words = page.GetWords().Select(w => (w.Text, Box: w.BoundingBox)).ToList();
            Assert.All(words, w => Assert.True(
                w.Box.Left > 28 && w.Box.Right < page.Width - 28 && w.Box.Bottom > 20 && w.Box.Top < page.Height - 28, $"“{w.Text}” lies outside the margins."));
            for (var i = 0; i < words.Count; i++)
            {
                for (var j = i + 1; j < words.Count; j++)
                {
                    var (a, b) = (words[i].Box, words[j].Box);
                    var across = Math.Min(a.Right, b.Right) - Math.Max(a.Left, b.Left);
                    var down = Math.Min(a.Top, b.Top) - Math.Max(a.Bottom, b.Bottom);
                    Assert.False(across > 1 && down > 1, $"“{words[i].Text}” and “{words[j].Text}” lie on each other on page {page.Number}.");
                }
            }
        }
    }

    [Fact]
    public void Fonts_AreEmbedded()
    {
        var file = Path.GetTempFileName();
        try
        {
            File.WriteAllBytes(file, TravelerPdf.Render(Samples.Usual, TravelerPaper.A4));
            var fonts = Tool.Run("poppler-utils", "pdffonts", file).Split('\n', StringSplitOptions.RemoveEmptyEntries)[2..];
            Assert.True(fonts.Length >= 3);
            Assert.All(fonts, f => Assert.Contains("yes yes yes", f, StringComparison.Ordinal));
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public void SeveralThreads_PrintAtOnce()
    {
        var pdfs = new byte[16][];
        Parallel.For(0, pdfs.Length, i => pdfs[i] = TravelerPdf.Render(i % 2 == 0 ? Samples.Usual : Samples.ThreeTickets, TravelerPaper.A4));
        Assert.All(pdfs, bytes =>
        {
            using var pdf = PdfDocument.Open(bytes);
            Assert.Contains(Squeeze(Samples.Usual.SheetNumberForPeople), Text(pdf.GetPage(1)), StringComparison.Ordinal);
        });
    }

    [Fact]
    public void SeveralTravelers_InOneDocument_CountTheirOwnPages()
    {
        using var pdf = PdfDocument.Open(TravelerPdf.Render([Samples.Usual, Samples.ThreeTickets], TravelerPaper.A4));
        Assert.Contains(Squeeze("page 1 of 1"), Text(pdf.GetPage(1)), StringComparison.Ordinal);
        Assert.Contains(Squeeze("page 1 of"), Text(pdf.GetPage(2)), StringComparison.Ordinal);
    }

    internal static TravelerContent Sample(string name) => (TravelerContent)typeof(Samples).GetProperty(name)!.GetValue(null)!;

    // Letters in the order of the page, without spaces: how the words were spaced does not matter.
    private static string Text(Page page) => Squeeze(page.Text);

    private static string Squeeze(string text) => string.Concat(text.Where(c => !char.IsWhiteSpace(c)));

    private static int Mm(double points) => (int)Math.Round(points * 25.4 / 72);
}
