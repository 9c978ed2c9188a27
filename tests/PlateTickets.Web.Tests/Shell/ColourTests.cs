using System.Globalization;
using System.Text.RegularExpressions;
using Bunit;
using MudBlazor;
using MudBlazor.Services;
using OxyPlot;
using OxyPlot.Axes;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Tests.Shell;

/// <summary>
/// The colours of every look. Source of the measure and the least ratios: W3C, Web Content Accessibility Guidelines 2.2, "relative luminance", "contrast ratio",
/// 1.4.3 (text 4.5:1), 1.4.6 (7:1), 1.4.11 (what must be seen to use a control or to read a chart 3:1).
/// </summary>
public sealed partial class ColourTests : BunitContext
{
    private static readonly string[] Grounds =
        ["--paper", "--surface", "--field", "--head", "--primary-tint", "--late-tint", "--risk-tint", "--good-tint", "--done", "--plate", "--planned", "--off", "--late-fill", "--risk-fill", "--load", "--load-light"];

    // What stands on what; --ink is the text of everything. Only the timeline's and the load table's figures, which are bold, stand on the last four.
    private static readonly (string Text, string[] Grounds, double Least)[] Pairs =
    [
        ("--ink", Grounds, 7),
        ("--quiet", ["--paper", "--surface", "--field", "--head", "--primary-tint", "--late-tint", "--risk-tint", "--good-tint", "--done", "--off"], 4.5),
        ("--primary", ["--paper", "--surface", "--field", "--head", "--primary-tint", "--late-tint", "--risk-tint", "--good-tint"], 4.5),
        ("--late", ["--paper", "--surface", "--primary-tint", "--late-tint", "--good-tint", "--head"], 4.5),
        ("--risk", ["--paper", "--surface", "--primary-tint", "--risk-tint", "--good-tint", "--head"], 4.5),
        ("--good", ["--paper", "--surface", "--primary-tint", "--good-tint", "--head"], 4.5),
        ("--on-primary", ["--primary", "--late", "--risk"], 4.5),
        ("--on-ink", ["--ink"], 7),
        ("--on-bar", ["--bar"], 7),
        ("--bar-quiet", ["--bar"], 4.5),
        ("--brass", ["--bar"], 4.5),
        ("--edge", ["--paper", "--surface", "--field"], 3),
        ("--faint", ["--surface"], 3),
        ("--bar-edge", ["--bar"], 3),
        ("--primary", ["--planned", "--load"], 3),
        ("--late", ["--late-fill"], 3),
        ("--risk", ["--risk-fill"], 3),
        ("--attended", ["--primary"], 3),
        ("--chart-bar", ["--surface"], 3),
        ("--chart-limit", ["--surface"], 3),
    ];

    public static TheoryData<string> Looks => ["light", "dark", "yellow"];

    private static IReadOnlyDictionary<string, string> Of(string look) => look switch { "light" => Css.Light, "dark" => Css.Dark, _ => Css.Yellow };

    /// <summary>Ends of the scale by definition; #767676 is the lightest grey that white text may stand on at 4.5:1 (from memory, widely cited).</summary>
    [Theory]
    [InlineData("#000000", "#ffffff", 21, 21)]
    [InlineData("#ffffff", "#ffffff", 1, 1)]
    [InlineData("#767676", "#ffffff", 4.5, 4.6)]
    [InlineData("#777777", "#ffffff", 4.4, 4.5)]
    public void Contrast_IsMeasuredAsTheGuidelinesSay(string one, string other, double least, double most) => Assert.InRange(Css.Contrast(one, other), least - 1e-9, most + 1e-9);

    [Theory]
    [MemberData(nameof(Looks))]
    public void WhatStandsTogether_CanBeRead(string look)
    {
        var colours = Of(look);
        Assert.Empty(Pairs.SelectMany(p => p.Grounds.Select(g => (p.Text, Ground: g, p.Least)))
            .Where(p => Css.Contrast(colours[p.Text], colours[p.Ground]) < p.Least)
            .Select(p => $"{look}: {p.Text} on {p.Ground} is {Css.Contrast(colours[p.Text], colours[p.Ground]).ToString("0.00", CultureInfo.InvariantCulture)}, must be {p.Least}"));
    }

    /// <summary>Every rule that sets both text and ground, so that a new one is measured without being listed above.</summary>
    [Theory]
    [MemberData(nameof(Looks))]
    public void RulesWithTextAndGround_CanBeRead(string look)
    {
        var colours = Of(look);
        var both = Css.Rules.Select(r => (r.Selector, Text: Name(r["color"]), Ground: Name(r["background"]))).Where(r => r.Text is not null && r.Ground is not null && colours.ContainsKey(r.Ground)).ToList();
        Assert.True(both.Count > 30, $"Only {both.Count} such rules were read.");
        Assert.Empty(both.Where(r => Css.Contrast(colours[r.Text!], colours[r.Ground!]) < 4.5).Select(r => $"{look}: {r.Selector}"));
    }

    private static string? Name(string? value) => value is null ? null : OneColour().Match(value) is { Success: true } match ? match.Groups[1].Value : null;

    /// <summary>Under yellow-filtered light blue does not come back from anything: what is told must still be there without it.</summary>
    [Fact]
    public void YellowLook_IsReadWithoutBlue()
    {
        var colours = Css.Yellow;
        Assert.Empty(Pairs.SelectMany(p => p.Grounds.Select(g => (p.Text, Ground: g, Least: Math.Min(p.Least, 4.5))))
            .Where(p => Css.Contrast(colours[p.Text], colours[p.Ground], blue: false) < p.Least).Select(p => $"{p.Text} on {p.Ground}"));
        Assert.All(new[] { "--paper", "--surface", "--field" }, g => Assert.True(Css.Contrast(colours["--ink"], colours[g], blue: false) >= 7));
    }

    [Fact]
    public void YellowLook_HasNoBlueHue()
    {
        var wrong = Css.Yellow.Where(c => c.Key != "--scan-ground").Where(c =>
        {
            var (red, green, blue) = (Channel(c.Value, 0), Channel(c.Value, 1), Channel(c.Value, 2));
            return !(red >= green && green >= blue && blue <= red * 2 / 3);
        });
        Assert.Empty(wrong.Select(c => $"{c.Key}: {c.Value}"));
    }

    private static int Channel(string colour, int which) => int.Parse(colour.AsSpan(1 + (2 * which), 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture);

    /// <summary>Where hues do not help, late and at risk stay apart from in time by lightness, beside their shapes and words.</summary>
    [Fact]
    public void YellowLook_TellsUrgencyByLightness()
    {
        var colours = Css.Yellow;
        Assert.True(Css.Luminance(colours["--late"]) > Css.Luminance(colours["--risk"]) && Css.Luminance(colours["--risk"]) > Css.Luminance(colours["--good"]) * 1.3);
    }

    [Fact]
    public void EveryColour_HasAFigureInEachLook()
    {
        var yellow = Css.Rules.Single(r => r is { Selector: ":root[data-look=yellow]", File: "look.css" }).Declarations.Where(d => d.Value.StartsWith('#')).Select(d => d.Name);
        // Codes and previews keep their white ground: they are scanned and compared.
        Assert.Equal(Css.Light.Keys.Where(k => k != "--scan-ground").Order(), yellow.Order());
        Assert.Equal(("#ffffff", "#ffffff", "#ffffff"), (Css.Light["--scan-ground"], Css.Dark["--scan-ground"], Css.Yellow["--scan-ground"]));
    }

    /// <summary>Only look.css says colours. An ink without a known colour is drawn as white paper with strokes in every look.</summary>
    [Fact]
    public void NoRule_HasAColourOfItsOwn()
    {
        Assert.Empty(Css.Rules.Where(r => r.File != "look.css" && r.Within != "@media print" && r.Selector != ".swatch.unknown")
            .SelectMany(r => r.Declarations.Where(d => Literal().IsMatch(d.Value)).Select(d => $"{r.File}: {r.Selector} {{ {d.Name}: {d.Value} }}")));
    }

    [Theory]
    [InlineData("#fff", true)]
    [InlineData("1px solid #7d8a8e80", true)]
    [InlineData("rgba(0, 0, 0, .2)", true)]
    [InlineData("white", true)]
    [InlineData("var(--white-space)", false)]
    [InlineData("url(#tl-down)", false)]
    [InlineData("currentcolor", false)]
    public void ColoursOfTheirOwn_AreFound(string value, bool own) => Assert.Equal(own, Literal().IsMatch(value));

    [Fact]
    public void EveryName_IsKnown()
    {
        var known = Css.Rules.SelectMany(r => r.Declarations).Select(d => d.Name).Where(n => n.StartsWith("--", StringComparison.Ordinal)).ToHashSet();
        Assert.Empty(Css.Rules.SelectMany(r => r.Declarations.SelectMany(d => Used().Matches(d.Value)).Select(m => m.Groups[1].Value).Where(n => !known.Contains(n)).Select(n => $"{r.File}: {r.Selector}: {n}")));
    }

    [Fact]
    public void EveryFile_IsOnThePage()
    {
        var page = File.ReadAllText(Path.Combine(Css.Folder, "..", "..", "src", "PlateTickets.Web", "Shell", "App.razor"));
        Assert.All(Directory.GetFiles(Css.Folder).Select(Path.GetFileName), f => Assert.Contains($"@Assets[\"css/{f}\"]", page, StringComparison.Ordinal));
    }

    /// <summary>Whatever colour the component library sets, ours stands before it: otherwise a part would stay light in the dark.</summary>
    [Fact]
    public void EveryColourOfTheComponents_IsOurs()
    {
        JSInterop.Mode = JSRuntimeMode.Loose;
        Services.AddMudServices();
        var set = PaletteName().Matches(Render<MudThemeProvider>(p => p.Add(x => x.Theme, RoomTheme.Theme)).Markup).Select(m => m.Groups[1].Value)
            .Where(n => !n.EndsWith("-rgb", StringComparison.Ordinal)).ToHashSet();
        var ours = Css.Rules.Where(r => r.Selector == "html:root").SelectMany(r => r.Declarations).Select(d => d.Name).ToHashSet();
        Assert.True(set.Count > 50, $"Only {set.Count} colours were found.");
        Assert.Equal([], set.Except(ours).Order());
    }

    [Fact]
    public void Charts_NameTheirColours()
    {
        var model = Charts.New(Charts.Axis(AxisPosition.Bottom, "s"), Charts.Axis(AxisPosition.Left, "mm"));
        model.Series.Add(Charts.Curve("", [new DataPoint(0, 0), new DataPoint(1, 1)], Charts.Limit));
        model.Series.Add(Charts.Area("", [(0, 0, 1), (1, 0, 1)]));
        model.Series.Add(Charts.Points("", [(0, 0), (1, 1)]));
        var svg = Charts.Svg(model, 400, 300);
        Assert.DoesNotMatch(@"rgba?\(|#[0-9a-f]{3,8}\b", svg);
        Assert.All(Used().Matches(svg).Select(m => m.Groups[1].Value), n => Assert.Contains(n, Css.Light.Keys));
        Assert.Contains("var(--risk)", svg, StringComparison.Ordinal);
    }

    [GeneratedRegex(@"^var\((--[\w-]+)\)$")]
    private static partial Regex OneColour();

    [GeneratedRegex(@"var\((--[\w-]+)")]
    private static partial Regex Used();

    [GeneratedRegex(@"(--mud-palette-[\w-]+):")]
    private static partial Regex PaletteName();

    [GeneratedRegex(@"(?<!url\()#[0-9a-fA-F]{3,8}\b|\b(?:rgba?|hsla?|hwb|lab|lch|oklab|oklch)\(|(?<![\w-])(?:white|black|gr[ae]y|red|green|blue|yellow|orange|purple|brown|pink|navy|teal|silver|maroon)(?![\w-])")]
    private static partial Regex Literal();
}
