using Bunit;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Administration;
using PlateTickets.Web.Shell;
using PlateTickets.Web.Startup.Backups;

namespace PlateTickets.Web.Tests.Pages;

public sealed class ProgramPageTests : PageTest
{
    [Fact]
    public async Task BackUpNow_MakesACheckedBackup_AndShowsIt()
    {
        BackupDatabase.Copy(Room.File, Data.Database);
        var page = Render<ProgramPage>();
        Assert.Contains("no checked backup yet", page.WaitForElement(".flag").TextContent, StringComparison.Ordinal);
        await page.InvokeAsync(() => page.Find("button.primary").Click());
        page.WaitForAssertion(() => Assert.Contains("The backup is made and checked", page.Find(".applied").TextContent, StringComparison.Ordinal), TimeSpan.FromSeconds(30));
        var row = page.Find("tbody tr");
        Assert.Contains("whole, Wed 25 Nov 2026, 08:00", row.TextContent, StringComparison.Ordinal);
        Assert.Contains("Tester", row.TextContent, StringComparison.Ordinal);
        Assert.Contains("The next one is due on Thu 26 Nov 2026, 08:00", page.Markup, StringComparison.Ordinal);

        File.Delete(Path.Combine(Backups.List()[0].Folder, "plate-room.db"));
        await page.InvokeAsync(() => page.Find("tbody button").Click());
        page.WaitForAssertion(() => Assert.Contains("plate-room.db is missing", page.Find(".refusals").TextContent, StringComparison.Ordinal), TimeSpan.FromSeconds(30));
        Assert.Contains("no checked backup yet", page.Find(".flag").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public async Task FailedBackup_StaysOnThePage()
    {
        // There is no database in the data folder.
        var page = Render<ProgramPage>();
        await page.InvokeAsync(() => page.WaitForElement("button.primary").Click());
        page.WaitForAssertion(() => Assert.Contains("There is no room in", page.Find(".refusals").TextContent, StringComparison.Ordinal));
        Assert.Contains("The last try failed on Wed 25 Nov 2026, 08:00", Render<ProgramPage>().WaitForElement(".flag.bad").TextContent, StringComparison.Ordinal);
    }

    [Fact]
    public void WithoutTheRight_NothingIsShown()
    {
        Services.GetRequiredService<Viewer>().SignedIn("Olga", Rights.Of(Role.Operator));
        var page = Render<ProgramPage>();
        Assert.Contains("may not do this here: keep the program", page.WaitForElement(".refusals").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("button"));
    }
}

public sealed class ProgramPageWithoutFolderTests : PageTest
{
    protected override string BackupFolder => "";

    [Fact]
    public void NoFolder_IsAWarning()
    {
        var page = Render<ProgramPage>();
        Assert.Contains("No backups are made", page.WaitForElement(".flag.bad").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("button"));
    }
}
