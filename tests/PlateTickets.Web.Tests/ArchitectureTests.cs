using System.Reflection;
using System.Xml.Linq;
using PlateTickets.Tests.Shared;

namespace PlateTickets.Web.Tests;

/// <summary>Keeps the arrows of the house: Web -> Travelers, Tickets -> Planning, Process.</summary>
public class ArchitectureTests
{
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["PlateTickets.Process"] = [],
        ["PlateTickets.Planning"] = [],
        ["PlateTickets.Travelers"] = [],
        ["PlateTickets.Tickets"] = ["PlateTickets.Process", "PlateTickets.Planning"],
        ["PlateTickets.Web"] = ["PlateTickets.Tickets", "PlateTickets.Travelers", "PlateTickets.Migrations.Sqlite", "PlateTickets.Migrations.PostgreSql"],
    };

    [Fact]
    public void ProjectReferences_FollowTheArrows()
    {
        var found = Directory.GetDirectories(Path.Combine(Repository.Root, "src")).Select(Path.GetFileName).Order();
        Assert.Equal(Allowed.Keys.Order(), found);
        foreach (var (project, allowed) in Allowed)
        {
            var file = Path.Combine(Repository.Root, "src", project, project + ".csproj");
            var references = XDocument.Load(file).Descendants("ProjectReference").Select(r => Path.GetFileNameWithoutExtension(r.Attribute("Include")!.Value));
            Assert.Equal(allowed.Order(), references.Order());
        }
    }

    [Theory]
    [InlineData("PlateTickets.Process", "MathNet.Numerics", "UnitsNet")]
    [InlineData("PlateTickets.Planning", "Google.OrTools", "Google.Protobuf")]
    public void PureParts_KnowNoDatabaseAndNoWeb(string name, params string[] pureLibraries)
    {
        var references = Assembly.Load(name).GetReferencedAssemblies().Select(a => a.Name!);
        Assert.All(references, r => Assert.True(
            r.StartsWith("System.", StringComparison.Ordinal) || pureLibraries.Contains(r), $"{name} must stay pure but refers to {r}."));
    }

    [Theory]
    [InlineData("PlateTickets.Process")]
    [InlineData("PlateTickets.Planning")]
    public void PureParts_ReadNoClock(string name)
    {
        foreach (var file in Directory.EnumerateFiles(Path.Combine(Repository.Root, "src", name), "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal)))
        {
            var text = File.ReadAllText(file);
            foreach (var clock in new[] { "DateTime.Now", "DateTime.UtcNow", "DateTimeOffset.Now", "DateTimeOffset.UtcNow", "TimeProvider.System", "Stopwatch" })
            {
                Assert.False(text.Contains(clock, StringComparison.Ordinal), $"{Path.GetFileName(file)} reads the clock ({clock}); time is an argument here.");
            }
        }
    }

    [Fact]
    public void OnlyTravelers_KnowsThePdfLibrary()
    {
        foreach (var name in Allowed.Keys.Where(n => n != "PlateTickets.Travelers"))
        {
            Assert.DoesNotContain(Assembly.Load(name).GetReferencedAssemblies(), a => a.Name!.StartsWith("PdfSharp", StringComparison.OrdinalIgnoreCase));
        }

        Assert.Contains(Assembly.Load("PlateTickets.Travelers").GetReferencedAssemblies(), a => a.Name!.StartsWith("PdfSharp", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void EveryPage_HasItsAddressInUrls()
    {
        var known = typeof(Urls).GetFields().Select(f => (string)f.GetRawConstantValue()!).Where(a => !a.StartsWith("/api/", StringComparison.Ordinal) && !a.StartsWith("/door/", StringComparison.Ordinal)).Concat([Urls.Ticket("{Number}"), Urls.TicketHistory("{Number}"), Urls.Sheet("{Number}"), Urls.Station("{Slug}"), Urls.Recipe("{MaterialId:int}"), Urls.StepTest("{Id:int}"), Urls.HandoverOf("{Id:int}"), Urls.Document("{Id:int}"), Urls.Status("{Token}")]);
        var pages = typeof(Urls).Assembly.GetTypes().SelectMany(t => t.GetCustomAttributes<Microsoft.AspNetCore.Components.RouteAttribute>()).Select(r => r.Template);
        Assert.Equal(known.Order(), pages.Order());
    }
}
