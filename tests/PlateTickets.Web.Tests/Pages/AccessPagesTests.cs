using Bunit;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Tests.Pages;

/// <summary>Accounts and API keys as the administrator keeps them.</summary>
public sealed class AccessPagesTests : PageTest
{
    public AccessPagesTests()
    {
        Services.AddScoped(_ => Room.CreateDbContext());
        Services.AddLogging();
        Services.AddDataProtection();
        Services.AddIdentityCore<Account>(identity =>
        {
            PlateRoomDb.ChooseStores(identity);
            identity.User.AllowedUserNameCharacters = "";
        }).AddEntityFrameworkStores<PlateRoomDb>().AddDefaultTokenProviders();
        Services.AddSingleton<AccountDesk>();
        Services.AddSingleton<ApiKeys>(provider => new(Room, Room.Clock));
    }

    [Fact]
    public async Task Account_IsMade_ItsLinkIsShownOnce_AndItsRolesChange()
    {
        var page = Render<AccountsPage>();
        page.WaitForAssertion(() => Assert.Contains("There is no account yet.", page.Markup, StringComparison.Ordinal));
        await PressAsync(page, "Make the account");
        page.WaitForAssertion(() => Assert.NotEmpty(page.Find(".refusals").TextContent));

        await MakeAsync(page, "Ada", "administrator");
        var link = page.Find("section.once code").TextContent;
        Assert.StartsWith("http://localhost/password?for=", link, StringComparison.Ordinal);
        await PressAsync(page, "Done");
        Assert.Empty(page.FindAll("section.once"));
        Assert.Contains("nothing yet", page.Find("tbody tr").TextContent, StringComparison.Ordinal);

        await MakeAsync(page, "Bo", "operator");
        await page.InvokeAsync(() => page.Find("button[aria-label='Roles of Bo']").Click());
        await page.InvokeAsync(() => page.FindAll("tbody fieldset label").Single(l => l.TextContent.Trim() == "CSR").QuerySelector("input")!.Change(true));
        await PressAsync(page, "Keep");
        page.WaitForAssertion(() => Assert.Contains("CSR, operator", Row(page, "Bo"), StringComparison.Ordinal));
        await using var db = Room.CreateDbContext();
        Assert.Contains(await db.AuditEntries.ToListAsync(), e => e is { By: "Tester", Key: "Bo", Field: nameof(Account.Roles) });
    }

    [Fact]
    public async Task Badge_IsShownWithItsPinOnce_AndTakenAgain_LastAdministratorStays()
    {
        var page = Render<AccountsPage>();
        await MakeAsync(page, "Ada", "administrator");
        await page.InvokeAsync(() => page.Find("button[aria-label='New badge for Ada']").Click());
        page.WaitForAssertion(() => Assert.Matches("^[0-9]{6,8}$", page.Find(".pin").TextContent));
        Assert.Contains("badge", Row(page, "Ada"), StringComparison.Ordinal);
        await page.InvokeAsync(() => page.Find("button[aria-label='Take badge of Ada']").Click());
        page.WaitForAssertion(() => Assert.DoesNotContain("Take badge", Row(page, "Ada"), StringComparison.Ordinal));
        Assert.Empty(page.FindAll(".pin"));
        await page.InvokeAsync(() => page.Find("button[aria-label='Switch off Ada']").Click());
        page.WaitForAssertion(() => Assert.Contains("is the last one who keeps accounts", page.Find(".refusals").TextContent, StringComparison.Ordinal));

        await MakeAsync(page, "Bo", "operator");
        await page.InvokeAsync(() => page.Find("button[aria-label='Switch off Bo']").Click());
        page.WaitForAssertion(() => Assert.Contains("switched off", Row(page, "Bo"), StringComparison.Ordinal));
    }

    [Fact]
    public async Task Key_IsShownOnce_AndEndsWhenItIsRevoked()
    {
        var page = Render<KeysPage>();
        page.WaitForAssertion(() => Assert.Contains("No program has a key yet.", page.Markup, StringComparison.Ordinal));
        await PressAsync(page, "Make the key");
        page.WaitForAssertion(() => Assert.Contains("Give the key a name", page.Find(".refusals").TextContent, StringComparison.Ordinal));
        await page.InvokeAsync(() => page.Find("input[maxlength]").Change("Ordering"));
        await page.InvokeAsync(() => page.FindAll("fieldset label").Single(l => l.TextContent.Trim() == "CSR").QuerySelector("input")!.Change(true));
        await PressAsync(page, "Make the key");
        page.WaitForAssertion(() => Assert.StartsWith(ApiKeys.Prefix, page.Find("section.once code").TextContent, StringComparison.Ordinal));
        var keys = Services.GetRequiredService<ApiKeys>();
        var key = page.Find("section.once code").TextContent;
        Assert.Equal(Role.Csr, (await keys.RecogniseAsync(key))!.Roles);
        await page.InvokeAsync(() => page.Find("button[aria-label='Revoke the key of Ordering']").Click());
        page.WaitForAssertion(() => Assert.Contains("revoked 08:00", page.Find("tbody tr").TextContent, StringComparison.Ordinal));
        Assert.Null(await keys.RecogniseAsync(key));
        Assert.Empty(page.FindAll("section.once"));
    }

    private static async Task MakeAsync(IRenderedComponent<AccountsPage> page, string name, string role)
    {
        page.WaitForElement("section[aria-label='New account'] input[maxlength]");
        await page.InvokeAsync(() => page.Find("section[aria-label='New account'] input[maxlength]").Change(name));
        await page.InvokeAsync(() => page.FindAll("section[aria-label='New account'] fieldset label").Single(l => l.TextContent.Trim() == role).QuerySelector("input")!.Change(true));
        await PressAsync(page, "Make the account");
        page.WaitForAssertion(() => Assert.Contains(name, page.Find("section.once h2").TextContent, StringComparison.Ordinal));
    }

    private static string Row(IRenderedComponent<AccountsPage> page, string name) => page.FindAll("tbody tr").Single(r => r.QuerySelector("th")!.TextContent.Trim().StartsWith(name, StringComparison.Ordinal)).TextContent;

    private static Task PressAsync<T>(IRenderedComponent<T> page, string button)
        where T : Microsoft.AspNetCore.Components.IComponent =>
        page.InvokeAsync(() => page.FindAll("button").First(b => b.TextContent.Trim() == button).Click());
}
