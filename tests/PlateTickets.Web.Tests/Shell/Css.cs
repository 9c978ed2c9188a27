using System.Globalization;
using System.Text.RegularExpressions;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Web.Tests.Shell;

/// <summary>The css as far as its tests must read it: rules with their declarations, and the colours of each look.</summary>
internal static partial class Css
{
    public static string Folder { get; } = Path.Combine(Repository.Root, "wwwroot-assets", "css");

    /// <summary>Every rule of every file. <c>Within</c> is the at-rule around it, or empty.</summary>
    public static IReadOnlyList<CssRule> Rules { get; } = [.. Directory.GetFiles(Folder, "*.css").Order(StringComparer.Ordinal).SelectMany(Read)];

    public static IReadOnlyDictionary<string, string> Light { get; } = Device(0);

    public static IReadOnlyDictionary<string, string> Dark { get; } = Device(1);

    public static IReadOnlyDictionary<string, string> Yellow { get; } = YellowLight();

    /// <summary>Relative luminance as WCAG 2.2 defines it, 0 to 1. <paramref name="blue"/> false takes the blue channel as zero, as yellow-filtered light does.</summary>
    public static double Luminance(string colour, bool blue = true)
    {
        var channels = Enumerable.Range(0, 3).Select(i => int.Parse(colour.AsSpan(1 + (2 * i), 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0)
            .Select(c => c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4)).ToArray();
        return (0.2126 * channels[0]) + (0.7152 * channels[1]) + (blue ? 0.0722 * channels[2] : 0);
    }

    /// <summary>Contrast ratio as WCAG 2.2 defines it, 1 to 21.</summary>
    public static double Contrast(string one, string other, bool blue = true)
    {
        var (a, b) = (Luminance(one, blue), Luminance(other, blue));
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static Dictionary<string, string> Device(int which) => Rules.Where(r => r is { File: "look.css", Selector: ":root", Within: "" })
        .SelectMany(r => r.Declarations).Select(d => (d.Name, Match: LightDark().Match(d.Value))).Where(d => d.Match.Success)
        .ToDictionary(d => d.Name, d => d.Match.Groups[which + 1].Value);

    private static Dictionary<string, string> YellowLight()
    {
        var colours = new Dictionary<string, string>(Dark);
        foreach (var (name, value) in Rules.Single(r => r.Selector == ":root[data-look=yellow]" && r.File == "look.css").Declarations.Where(d => d.Value.StartsWith('#')))
        {
            colours[name] = value;
        }

        return colours;
    }

    private static IEnumerable<CssRule> Read(string path)
    {
        var text = Comment().Replace(File.ReadAllText(path), "");
        var open = new Stack<string>();
        var from = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '{')
            {
                open.Push(text[from..i].Trim());
                from = i + 1;
            }
            else if (text[i] == '}')
            {
                var selector = open.Pop();
                if (text[from..i].Trim() is { Length: > 0 } inner)
                {
                    var declarations = inner.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
                        .Select(d => (d[..d.IndexOf(':', StringComparison.Ordinal)].Trim(), d[(d.IndexOf(':', StringComparison.Ordinal) + 1)..].Trim())).ToList();
                    yield return new CssRule(Path.GetFileName(path), open.TryPeek(out var within) ? within : "", selector, declarations);
                }

                from = i + 1;
            }
        }

        Assert.Empty(open);
    }

    [GeneratedRegex(@"/\*.*?\*/", RegexOptions.Singleline)]
    private static partial Regex Comment();

    [GeneratedRegex(@"^light-dark\((#\w+), (#\w+)\)$")]
    private static partial Regex LightDark();
}

internal sealed record CssRule(string File, string Within, string Selector, IReadOnlyList<(string Name, string Value)> Declarations)
{
    public string? this[string name] => Declarations.LastOrDefault(d => d.Name == name).Value;
}
