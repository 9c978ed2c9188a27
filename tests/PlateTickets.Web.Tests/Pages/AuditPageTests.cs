using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Audit;
using PlateTickets.Web.Shell;

namespace PlateTickets.Web.Tests.Pages;

public sealed class AuditPageTests : PageTest
{
    [Fact]
    public async Task Trail_ReadsAsSentences_NewestFirst()
    {
        var order = (await Room.OrderAsync(["Cyan"])).Order;
        await ChangeTitleAsync("Ada", "Another title");
        var page = Render<AuditPage>();
        var first = page.WaitForElement(".audit tbody tr");
        Assert.Contains("Ada changed the title of order", first.TextContent, StringComparison.Ordinal);
        Assert.Contains("from “Test job” to “Another title”", first.TextContent, StringComparison.Ordinal);
        Assert.Contains("Wed 25 Nov 2026, 08:00", first.TextContent, StringComparison.Ordinal);
        Assert.DoesNotContain(order.Number, first.TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Search_GoesIntoTheAddress_AndFinds()
    {
        var order = (await Room.OrderAsync(["Cyan"])).Order;
        await ChangeTitleAsync("Ada", "Another title");
        var page = Render<AuditPage>();
        page.WaitForElement(".audit-search");
        await page.InvokeAsync(() => page.Find(".audit-search input").Change("Ada"));
        await page.InvokeAsync(() => page.Find(".audit-search select").Change("Order"));
        await page.InvokeAsync(() => page.Find(".audit-search").Submit());
        Assert.EndsWith("/audit?who=Ada&record=Order", Services.GetRequiredService<NavigationManager>().Uri, StringComparison.Ordinal);

        Services.GetRequiredService<NavigationManager>().NavigateTo($"/audit?key={order.Number}&field=title");
        var found = Render<AuditPage>();
        found.WaitForAssertion(() => Assert.Single(found.FindAll(".audit tbody tr")));
        Assert.Contains("key=", found.Find("a[download]").GetAttribute("href"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pages_GoByNumber()
    {
        var log = Services.GetRequiredService<AuditLog>();
        for (var i = 0; i < 60; i++)
        {
            await log.WriteAsync("Ada", "Account", $"number {i}", "signed in");
        }

        Services.GetRequiredService<NavigationManager>().NavigateTo("/audit?record=Account");
        var page = Render<AuditPage>();
        page.WaitForAssertion(() => Assert.Equal(50, page.FindAll(".audit tbody tr").Count));
        var older = page.Find(".audit-pages a").GetAttribute("href")!;
        Services.GetRequiredService<NavigationManager>().NavigateTo(older);
        var next = Render<AuditPage>();
        next.WaitForAssertion(() => Assert.Equal(10, next.FindAll(".audit tbody tr").Count));
    }

    [Fact]
    public void NothingFound_SaysSo()
    {
        Services.GetRequiredService<NavigationManager>().NavigateTo("/audit?who=Nobody");
        var page = Render<AuditPage>();
        Assert.Contains("Nothing in the trail fits", page.WaitForElement(".empty").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void WithoutTheRight_NothingIsShown()
    {
        Services.GetRequiredService<Viewer>().SignedIn("Olga", Rights.Of(Role.Operator));
        var page = Render<AuditPage>();
        Assert.Contains("may not do this here: read the audit", page.WaitForElement(".refusals").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("table"));
    }

    private async Task ChangeTitleAsync(string by, string title)
    {
        await using var db = Room.CreateDbContext();
        db.ActingAs = by;
        db.Orders.Single().Title = title;
        await db.SaveChangesAsync();
    }
}
