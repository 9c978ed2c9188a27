using System.Text.RegularExpressions;

namespace PlateTickets.Tickets.Orders.Separations;

/// <summary>Finds the ink's name of a separation and a colour to show beside it.</summary>
public static partial class ColourNames
{
    public const int Longest = 100;

    private static readonly Dictionary<string, string> Process = new(StringComparer.OrdinalIgnoreCase)
    {
        ["c"] = "Cyan",
        ["cyan"] = "Cyan",
        ["cya"] = "Cyan",
        ["m"] = "Magenta",
        ["magenta"] = "Magenta",
        ["mag"] = "Magenta",
        ["y"] = "Yellow",
        ["yellow"] = "Yellow",
        ["yel"] = "Yellow",
        ["k"] = "Black",
        ["black"] = "Black",
        ["blk"] = "Black",
        ["key"] = "Black",
    };

    // Display only, to be told apart on a screen: no ink is matched by these.
    private static readonly (string Word, string Rgb)[] Swatches =
    [
        ("cyan", "#00a0d8"), ("magenta", "#d0107c"), ("yellow", "#f5dc00"), ("black", "#1c1c1c"), ("orange", "#ec7a16"), ("violet", "#5b3a9b"),
        ("purple", "#6f2c91"), ("green", "#2f8f46"), ("blue", "#1f55b5"), ("red", "#cf2030"), ("white", "#ffffff"), ("grey", "#8a8f92"), ("gray", "#8a8f92"),
        ("brown", "#7a4a25"), ("gold", "#b08d3c"), ("silver", "#b4b9bd"), ("pink", "#ef8fb4"),
    ];

    /// <summary>
    /// The colour and where it was found. Order of trust: the end of the file's name, PageName (tag 285), InkNames (333),
    /// ImageDescription (270) when it is a single short line.
    /// </summary>
    public static (string Colour, ColourSource From) Find(string fileName, string? pageName, string? inkNames, string? description)
    {
        if (FromFileName(fileName) is { Length: > 0 } named)
        {
            return (named, ColourSource.FileName);
        }

        return FromTags(pageName, inkNames, description);
    }

    /// <summary>The usual spelling of a process colour's name, or null for another ink.</summary>
    public static string? ProcessColour(string name) => Process.GetValueOrDefault(name);

    /// <summary>The colour that the tags alone give.</summary>
    public static (string Colour, ColourSource From) FromTags(string? pageName, string? inkNames, string? description)
    {
        if (Tidy(pageName) is { Length: > 0 } page)
        {
            return (page, ColourSource.PageName);
        }

        if (Tidy(inkNames) is { Length: > 0 } ink)
        {
            return (ink, ColourSource.InkNames);
        }

        return description is { Length: <= 40 } && !description.Contains('\n', StringComparison.Ordinal) && Tidy(description) is { Length: > 0 } described
            ? (described, ColourSource.ImageDescription)
            : ("", ColourSource.None);
    }

    /// <summary>The order in which a set is listed: cyan, magenta, yellow, black, then the spot colours.</summary>
    public static int PrintOrder(string colour) => colour switch
    {
        "Cyan" => 0,
        "Magenta" => 1,
        "Yellow" => 2,
        "Black" => 3,
        _ => 4,
    };

    /// <summary>A colour for a small swatch as "#rrggbb", or null when the name says nothing. Never shown without the name.</summary>
    public static string? SwatchRgb(string colour)
    {
        foreach (var (word, rgb) in Swatches)
        {
            if (colour.Contains(word, StringComparison.OrdinalIgnoreCase))
            {
                return rgb;
            }
        }

        return null;
    }

    private static string FromFileName(string fileName)
    {
        var name = Path.GetFileNameWithoutExtension(fileName);
        if (Parenthesised().Match(name) is { Success: true } inParentheses)
        {
            return Tidy(Unescape(inParentheses.Groups[1].Value));
        }

        // Without parentheses only the process colours are believed: "front_final.tif" is no ink called "final".
        var last = name.Split('_', '-', '.', ' ')[^1];
        return Process.GetValueOrDefault(last, "");
    }

    // Only %2F and its like; a malformed escape stays as it is.
    private static string Unescape(string text) => Uri.UnescapeDataString(text);

    private static string Tidy(string? name)
    {
        if (string.IsNullOrWhiteSpace(name))
        {
            return "";
        }

        var clean = new string([.. name.Where(c => !char.IsControl(c))]).Trim();
        clean = clean.Length > Longest ? clean[..Longest] : clean;
        return Process.GetValueOrDefault(clean, clean);
    }

    [GeneratedRegex(@"\(([^()]+)\)\s*$")]
    private static partial Regex Parenthesised();
}
