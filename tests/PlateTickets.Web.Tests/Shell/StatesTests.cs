using System.Text.RegularExpressions;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Web.Tests.Shell;

/// <summary>Being read, nothing there, refused: one look and one pattern of words on every page.</summary>
public sealed partial class StatesTests
{
    private static readonly string Web = Path.Combine(Repository.Root, "src", "PlateTickets.Web");

    private static readonly List<(string Name, string Text)> Razor =
        [.. new DirectoryInfo(Web).GetDirectories().Where(d => d.Name is not ("bin" or "obj")).SelectMany(d => d.GetFiles("*.razor", SearchOption.AllDirectories)).Select(f => (f.Name, File.ReadAllText(f.FullName)))];

    [Fact]
    public void WhatIsBeingRead_IsSaidAlike_AndHeard()
    {
        var said = Razor.SelectMany(r => State().Matches(r.Text).Where(m => m.Groups["state"].Value == "loading").Select(m => (r.Name, m.Value, Words: m.Groups["words"].Value))).ToList();
        Assert.True(said.Count > 25, $"Only {said.Count} were read.");
        Assert.All(said, s => Assert.True(s.Value.Contains("role=\"status\"", StringComparison.Ordinal) && s.Words.EndsWith(" …", StringComparison.Ordinal), $"{s.Name}: {s.Value}"));
    }

    [Fact]
    public void WhatIsNotThere_IsAWholeSentence()
    {
        var said = Razor.SelectMany(r => State().Matches(r.Text).Where(m => m.Groups["state"].Value == "empty").Select(m => (r.Name, Words: m.Groups["words"].Value.Trim()))).ToList();
        Assert.True(said.Count > 20, $"Only {said.Count} were read.");
        Assert.All(said, s => Assert.True(s.Words[^1] is '.' or ')' or '>', $"{s.Name}: {s.Words}"));
    }

    [Fact]
    public void WhatIsRefused_IsHeardAtOnce()
    {
        var refusals = Razor.Where(r => r.Name != "App.razor").SelectMany(r => Refusal().Matches(r.Text).Select(m => (r.Name, m.Value))).ToList();
        Assert.True(refusals.Count > 25, $"Only {refusals.Count} were read.");
        Assert.All(refusals, r => Assert.Contains("alert", r.Value, StringComparison.Ordinal));
    }

    /// <summary>Pages with a connection begin without their figures: each says so. Those at the door come whole.</summary>
    [Fact]
    public void EveryPageThatReads_SaysSo()
    {
        var pages = Razor.Where(r => r.Text.StartsWith("@page", StringComparison.Ordinal) && !r.Text.Contains("ExcludeFromInteractiveRouting", StringComparison.Ordinal) && r.Name != "HomePage.razor").ToList();
        Assert.True(pages.Count > 20);
        Assert.All(pages, p => Assert.True(p.Text.Contains("class=\"loading\"", StringComparison.Ordinal), p.Name));
    }

    [GeneratedRegex("""<p class="(?<state>loading|empty)"[^>]*>(?<words>.*?)</p>""", RegexOptions.Singleline)]
    private static partial Regex State();

    [GeneratedRegex("""<[^<>]*class="[^"]*refusals[^<>]*>|<p class="@\(_refused.*?>@""")]
    private static partial Regex Refusal();
}
