using UglyToad.PdfPig;

namespace PlateTickets.Travelers.Tests;

public class ReportPdfTests
{
    [Theory]
    [InlineData(TravelerPaper.A4)]
    [InlineData(TravelerPaper.Letter)]
    public void Report_SaysEverything_AndRepeatsItsHeadOnEveryPage(TravelerPaper paper)
    {
        var content = Content(70);
        using var pdf = PdfDocument.Open(ReportPdf.Render(content, paper));
        Assert.True(pdf.NumberOfPages >= 2);
        var pages = pdf.GetPages().Select(p => string.Concat(p.Text.Where(c => !char.IsWhiteSpace(c)))).ToList();
        Assert.All(pages, (p, i) =>
        {
            Assert.Contains("FigureValueBeforeChange", p, StringComparison.Ordinal);
            Assert.Contains($"page{i + 1}of{pages.Count}", p, StringComparison.Ordinal);
        });
        var all = string.Concat(pages);
        Assert.All(
            content.Sections.SelectMany(s => s.Rows).SelectMany(r => new[] { r.Title, r.Value, r.Before, r.Change }).Concat([content.SiteName, content.Period, content.Before, content.PrintedAt, .. content.Notes]),
            t => Assert.Contains(t.Replace(" ", "", StringComparison.Ordinal), all, StringComparison.Ordinal));
    }

    [Fact]
    public void NothingRunsOffThePaper_AndNothingOverlaps()
    {
        using var pdf = PdfDocument.Open(ReportPdf.Render(Content(40), TravelerPaper.A4));
        foreach (var page in pdf.GetPages())
        {
            Assert.All(page.Letters, l => Assert.True(l.StartBaseLine.X > 20 && l.EndBaseLine.X < page.Width - 20 && l.StartBaseLine.Y > 20, $"“{l.Value}” at {l.StartBaseLine}"));
        }
    }

    private static ReportContent Content(int rows) => new()
    {
        SiteName = "Harbour Lane plate room",
        Period = "27 Oct to 25 Nov 2026",
        Before = "27 Sept to 26 Oct 2026",
        PrintedAt = "Wed 25 Nov 2026, 08:00 (UTC)",
        Sections = [new("Promises", [.. Enumerable.Range(1, rows).Select(i => new ReportRow($"Row {i} of the figures", $"{i * 1000} min", $"{i} min", $"+{i} min, worse"))]), new("Remakes", [new("Plates", "4", "5", "−1, better")])],
        Notes = ["Lead time runs from the order’s entry to the last plate."],
    };
}
