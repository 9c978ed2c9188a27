using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;

namespace PlateTickets.Travelers.Pages;

/// <summary>The traveler's type: embedded in the program and in every PDF, so that it looks the same on every printer.</summary>
internal static class Fonts
{
    private const string Text = "Traveler Text";
    private const string Mono = "Traveler Mono";

    private static readonly Lock Setting = new();
    private static bool _set;

    public static XFont Regular(double points) => New(Text, points, XFontStyleEx.Regular);

    public static XFont Bold(double points) => New(Text, points, XFontStyleEx.Bold);

    public static XFont MonoBold(double points) => New(Mono, points, XFontStyleEx.Bold);

    // PDFsharp keeps one resolver for the whole process.
    private static void SetOnce()
    {
        lock (Setting)
        {
            if (!_set)
            {
                GlobalFontSettings.FontResolver = new Resolver();
                _set = true;
            }
        }
    }

    private static XFont New(string family, double points, XFontStyleEx style)
    {
        SetOnce();
        return new XFont(family, points, style, new XPdfFontOptions(PdfFontEncoding.Unicode, PdfFontEmbedding.TryComputeSubset));
    }

    private sealed class Resolver : IFontResolver
    {
        public byte[] GetFont(string faceName)
        {
            using var stream = typeof(Fonts).Assembly.GetManifestResourceStream(faceName)
                ?? throw new InvalidOperationException($"The font {faceName} is not embedded.");
            var bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            return bytes;
        }

        public FontResolverInfo ResolveTypeface(string familyName, bool isBold, bool isItalic) => new((familyName, isBold) switch
        {
            (Mono, _) => "AtkinsonHyperlegibleMono_700Bold",
            (_, true) => "AtkinsonHyperlegibleNext_700Bold",
            _ => "AtkinsonHyperlegibleNext_400Regular",
        });
    }
}
