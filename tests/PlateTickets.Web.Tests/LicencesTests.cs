using System.Text;
using System.Text.Json;
using System.Xml.Linq;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Web.Tests;

/// <summary>docs/licences.md lists what the program ships, from the resolved packages and the licence that each package itself states.</summary>
public sealed class LicencesTests
{
    /// <summary>SPDX identifiers that this program may be passed on with; another one needs a decision first.</summary>
    private static readonly string[] Known = ["MIT", "MIT-0", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "MS-PL OR Apache-2.0", "PostgreSQL"];

    /// <summary>Old packages name a web page instead of an identifier; somebody has looked at each.</summary>
    private static readonly Dictionary<string, string> Decided = new()
    {
        ["zxcvbn-core"] = "MIT",
        // They only name others that .NET itself brings: nothing of them is passed on.
        ["NETStandard.Library"] = "ships nothing",
        ["Microsoft.NETCore.Platforms"] = "ships nothing",
    };

    private static readonly string List = Path.Combine(Repository.Root, "docs", "licences.md");

    [Fact]
    public void List_IsUpToDate()
    {
        var text = Write(Packages());
        if (Environment.GetEnvironmentVariable("PLATETICKETS_LICENCES") == "1")
        {
            File.WriteAllText(List, text);
        }

        Assert.True(File.ReadAllText(List) == text, "docs/licences.md is not up to date: run tests/licences and look at what changed.");
    }

    [Fact]
    public void EveryLicence_IsOneThatWasDecidedOn() =>
        Assert.All(Packages(), p => Assert.True(Known.Contains(p.Licence) || Decided.ContainsValue(p.Licence), $"{p.Id} {p.Version} is under “{p.Licence}”: decide whether the program may ship it."));

    private static List<Package> Packages()
    {
        using var assets = JsonDocument.Parse(File.ReadAllText(Path.Combine(Repository.Root, "src", "PlateTickets.Web", "obj", "project.assets.json")));
        var root = assets.RootElement;
        var folders = root.GetProperty("packageFolders").EnumerateObject().Select(f => f.Name).ToList();
        var direct = Direct();
        return [.. root.GetProperty("targets").GetProperty("net10.0").EnumerateObject()
            // The SDK adds its own assets in its own version: they are .NET itself.
            .Where(t => t.Value.GetProperty("type").GetString() == "package" && !t.Name.StartsWith("Microsoft.AspNetCore.App.Internal.", StringComparison.Ordinal))
            .Select(t =>
            {
                var (id, version) = (t.Name.Split('/')[0], t.Name.Split('/')[1]);
                var library = root.GetProperty("libraries").GetProperty(t.Name);
                return new Package(id, version, Decided.GetValueOrDefault(id) ?? Licence(folders, library), direct.Contains(id));
            })
            .OrderBy(p => p.Id, StringComparer.OrdinalIgnoreCase)];
    }

    private static HashSet<string> Direct() => [.. Directory.EnumerateFiles(Path.Combine(Repository.Root, "src"), "*.csproj", SearchOption.AllDirectories)
        .SelectMany(f => XDocument.Load(f).Descendants("PackageReference").Select(r => r.Attribute("Include")!.Value))];

    private static string Licence(List<string> folders, JsonElement library)
    {
        var nuspec = library.GetProperty("files").EnumerateArray().Select(f => f.GetString()!).Single(f => f.EndsWith(".nuspec", StringComparison.Ordinal));
        var file = folders.Select(f => Path.Combine(f, library.GetProperty("path").GetString()!, nuspec)).First(File.Exists);
        var licence = XDocument.Load(file).Descendants().FirstOrDefault(e => e.Name.LocalName == "license");
        return licence?.Attribute("type")?.Value == "expression" ? licence.Value : $"as in its {licence?.Value ?? "web page"}";
    }

    private static string Write(List<Package> packages)
    {
        var text = new StringBuilder("""
            # Licences

            Every package that the program resolves to, with the licence that the package itself states (SPDX identifier). `bash tests/licences` writes
            this list anew; a test fails while it is not up to date. Some packages only help while building. The typefaces in `wwwroot-assets/fonts` are
            under the SIL Open Font License 1.1, which lies beside them. .NET itself is under the MIT licence.

            | Package | Version | Licence | Why |
            |---|---|---|---|

            """.ReplaceLineEndings("\n"));
        foreach (var package in packages)
        {
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"| {package.Id} | {package.Version} | {package.Licence} | {(package.Direct ? "direct" : "needed by another")} |\n");
        }

        return text.ToString();
    }

    private sealed record Package(string Id, string Version, string Licence, bool Direct);
}
