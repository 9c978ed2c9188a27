using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Process.Units;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Quality;
using PlateTickets.Web.Reports;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Tests.Pages;

public sealed class FiguresPagesTests : PageTest
{
    protected override bool Past => true;

    [Fact]
    public void Quality_ChartsTheFloor_WithSignalsAndWhatChangedNearThem()
    {
        var page = Render<QualityPage>();
        page.WaitForElement(".qc-facts");
        Assert.Equal(2, page.FindAll(".chart").Count);
        Assert.Contains("Cp, Cpk", page.Find(".qc-facts").TextContent, StringComparison.Ordinal);
        var signals = page.FindAll(".qc-signals > li");
        Assert.NotEmpty(signals);
        Assert.Contains(signals, s => s.TextContent.Contains("Frame 2, back lamps read", StringComparison.Ordinal));
        Assert.NotEmpty(page.FindAll(".qc-points tbody tr"));
        Assert.Matches(@"^Floor, \d+ points about 1\.\d+ mm, control limits", page.Find(".chart [role=img]").GetAttribute("aria-label"));
        Assert.Contains("/api/v1/quality/chart.csv?measure=Floor&material=1&grouping=Singles&from=2026-10-27&to=2026-11-25", page.Find("a[download]").GetAttribute("href"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Quality_Choices_GoIntoTheAddress_AndAMachineOfOtherStationsIsDropped()
    {
        Navigation.NavigateTo("/quality?measure=Floor&equipment=1");
        var page = Render<QualityPage>();
        page.WaitForElement(".qc-facts");
        await page.InvokeAsync(() => page.FindAll(".wishes select")[0].Change("StageTime"));
        await page.InvokeAsync(() => page.FindAll(".wishes select")[1].Change("Washout"));
        await page.InvokeAsync(() => page.Find(".wishes input").Change("2026-10-01"));
        await page.InvokeAsync(() => page.Find(".wishes").Submit());
        Assert.Equal("http://localhost/quality?measure=StageTime&station=Washout&material=1&grouping=Singles&from=2026-10-01&to=2026-11-25", Navigation.Uri);
    }

    [Fact]
    public void Quality_InInches_AndGrouped()
    {
        Services.GetRequiredService<Viewer>().Choose("inch", LengthSystem.Metric);
        Navigation.NavigateTo("/quality?measure=Relief&grouping=Fives");
        var page = Render<QualityPage>();
        Assert.Contains(" in to ", page.WaitForElement(".qc-facts").TextContent, StringComparison.Ordinal);
        Assert.Contains("Ranges (R)", page.Find("#qc-spread").TextContent, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/quality?from=2026-11-26&to=2026-11-25", "turn them round")]
    [InlineData("/quality?measure=weight", "There is no measure")]
    public void Quality_AWrongQuestion_IsRefusedInWords(string address, string sentence)
    {
        Navigation.NavigateTo(address);
        Assert.Contains(sentence, Render<QualityPage>().WaitForElement(".refusals").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Quality_WithoutValues_SaysSo()
    {
        Navigation.NavigateTo("/quality?from=2026-01-01&to=2026-01-02");
        Assert.Contains("There are no such values in these days", Render<QualityPage>().WaitForElement(".empty").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void Remakes_ArePareto_WithTheTableBesideIt()
    {
        Navigation.NavigateTo("/quality/remakes?by=CausedAt&cost=Area&from=2026-10-01");
        var page = Render<RemakesPage>();
        page.WaitForElement(".chart svg");
        var shares = page.FindAll("[aria-label=Sums] tbody tr td:last-child").Select(c => int.Parse(c.TextContent.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture)).ToList();
        Assert.Equal(shares.Order(), shares);
        Assert.Equal(100, shares[^1]);
        Assert.All(page.FindAll(".wishes a"), a => Assert.Contains("/quality/remakes?by=CausedAt&cost=Area&from=2026-", a.GetAttribute("href"), StringComparison.Ordinal));
        Assert.Contains("by station of cause, in m² lost", page.Find(".chart [role=img]").GetAttribute("aria-label"), StringComparison.Ordinal);
    }

    [Fact]
    public void Report_HasValueBeforeAndChange_AndFiles()
    {
        var page = Render<ReportsPage>();
        page.WaitForElement(".report-table");
        Assert.Equal(["/reports?from=2026-11-19", "/reports?from=2026-10-27", "/reports?from=2026-08-28"], page.FindAll(".wishes a").Select(a => new Uri(new Uri("http://localhost"), a.GetAttribute("href")).PathAndQuery));
        var row = page.FindAll(".report-table tbody tr").Single(r => r.TextContent.Contains("Done on time", StringComparison.Ordinal));
        Assert.Matches(@"\d %.*\d %.*(points, (better|worse)|no change)", row.TextContent.ReplaceLineEndings(" "));
        Assert.Equal(
            ["http://localhost/api/v1/report.pdf?from=2026-10-27&to=2026-11-25&paper=a4", "http://localhost/api/v1/report.pdf?from=2026-10-27&to=2026-11-25&paper=letter", "http://localhost/api/v1/report.csv?from=2026-10-27&to=2026-11-25",
                "http://localhost/api/v1/plates.csv?from=2026-10-27T00:00:00Z&to=2026-11-26T00:00:00Z"],
            page.FindAll(".page-head a").Select(a => new Uri(new Uri("http://localhost"), a.GetAttribute("href")).ToString()));
    }

    [Fact]
    public void WithoutTheRight_NothingIsShown()
    {
        Services.GetRequiredService<Viewer>().SignedIn("Olga", Rights.Of(Role.Operator));
        Assert.Contains("may not do this here: see quality and reports", Render<QualityPage>().WaitForElement(".refusals").TextContent, StringComparison.Ordinal);
        Assert.Contains("may not do this here", Render<RemakesPage>().WaitForElement(".refusals").TextContent, StringComparison.Ordinal);
        Assert.Contains("may not do this here", Render<ReportsPage>().WaitForElement(".refusals").TextContent, StringComparison.Ordinal);
    }

    private NavigationManager Navigation => Services.GetRequiredService<NavigationManager>();
}
