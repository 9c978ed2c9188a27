using Microsoft.Playwright;
using PlateTickets.Tests.Shared;
using PlateTickets.Web;

namespace PlateTickets.Browser;

/// <summary>A manager of the group looks at all its plate rooms and goes to one of them, with one sign-in.</summary>
public sealed class SitesTests(Chromium chromium, PostgresServer server) : IClassFixture<Chromium>, IClassFixture<PostgresServer>
{
    [Fact]
    public async Task Sites_AreSeenTogether_AndOneSignInOpensEach()
    {
        var both = await Task.WhenAll(StartAsync("north"), StartAsync("coast"));
        await using var north = both[0];
        await using var coast = both[1];
        var page = await chromium.OpenAsync(north.Url + Urls.Sites);
        await Assertions.Expect(page.Locator("table.sites tbody tr")).ToHaveCountAsync(2);
        await Assertions.Expect(page.Locator("table.sites tfoot")).ToContainTextAsync("All of them");
        foreach (var (width, height) in new[] { (390, 844), (1024, 768), (1280, 800) })
        {
            await page.SetViewportSizeAsync(width, height);
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= width);
        }

        await Screenshots.TakeAsync(page, "sites");
        await Axe.CleanAsync(page);
        await Looks.ShowAsync(page, "dark");
        await Screenshots.TakeAsync(page, "sites-dark");
        await Axe.ReadableAsync(page);
        await page.Locator($"table.sites a[href='{coast.Url}{Urls.Board}']").ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(coast.Url + Urls.Board);
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Shift board" })).ToBeVisibleAsync();
        await page.Context.CloseAsync();
    }

    private Task<RoomServer> StartAsync(string site) =>
        RoomServer.StartAsync("demo", null, "--Database:Provider", "PostgreSql", "--Database:ConnectionString", server.Connection("group"), "--site", site);
}
