using PdfSharp;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace PlateTickets.Travelers.Pages;

/// <summary>The paper: pages, margins, and how far the writing has come. Points, from the top left.</summary>
internal sealed class Sheet : IDisposable
{
    private const double MarginMm = 11;
    private const double FooterMm = 15;

    private readonly PdfDocument _document;
    private readonly TravelerPaper _paper;
    private readonly Action<Sheet> _head;

    public Sheet(PdfDocument document, TravelerPaper paper, Action<Sheet> head)
    {
        _document = document;
        _paper = paper;
        _head = head;
        Graphics = null!;
        NewPage();
    }

    /// <summary>Takes the same calls and writes nothing.</summary>
    public XGraphics Measure { get; } = XGraphics.CreateMeasureContext(new XSize(2000, 2000), XGraphicsUnit.Point, XPageDirection.Downwards);

    public List<PdfPage> Pages { get; } = [];

    public XGraphics Graphics { get; private set; }

    public double Left { get; } = Mm(MarginMm);

    public double Width { get; private set; }

    public double Right => Left + Width;

    public double Y { get; set; }

    /// <summary>Nothing but the footer lies below.</summary>
    public double Bottom { get; private set; }

    public bool IsFirstPage => Pages.Count == 1;

    public static double Mm(double millimetres) => millimetres * 72 / 25.4;

    /// <summary>Goes on to a new page when what comes does not fit on this one.</summary>
    public void Need(double height)
    {
        if (Y + height > Bottom)
        {
            NewPage();
        }
    }

    public void NewPage()
    {
        Graphics?.Dispose();
        var page = _document.AddPage();
        page.Size = _paper == TravelerPaper.A4 ? PageSize.A4 : PageSize.Letter;
        Pages.Add(page);
        Graphics = XGraphics.FromPdfPage(page);
        Width = page.Width.Point - (2 * Left);
        Bottom = page.Height.Point - Left - Mm(FooterMm);
        Y = Left;
        _head(this);
    }

    public void Dispose()
    {
        Graphics.Dispose();
        Measure.Dispose();
    }
}
