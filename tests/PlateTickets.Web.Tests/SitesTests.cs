using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Process;
using PlateTickets.Process.Recipes;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Board;
using PlateTickets.Tickets.Calendars;
using PlateTickets.Tickets.Sheets;
using PlateTickets.Tickets.Sheets.Planning;
using PlateTickets.Tickets.Sites;
using PlateTickets.Tickets.Stations;
using PlateTickets.Web.Sites;
using PlateTickets.Web.Startup;
using PlateTickets.Web.Startup.Nodes;
using PlateTickets.Web.Tests.Accounts;

namespace PlateTickets.Web.Tests;

/// <summary>Two plate rooms of a group in one PostgreSQL database.</summary>
public sealed class SitesTests(SitesTests.Group group) : IClassFixture<SitesTests.Group>
{
    private const string Password = "a plate room has many drawers";

    [Fact]
    public async Task EachSiteHasItsOwnRoom_AndPlansItself()
    {
        await UntilAsync(() => Get<PlanBook>(group.North).Now is not null && Get<PlanBook>(group.South).Now is not null);
        Assert.True(Get<PlannerSeat>(group.North).IsOurs);
        Assert.True(Get<PlannerSeat>(group.South).IsOurs);
        await UntilAsync(() => Get<BoardState>(group.South).Now.Sheets.Count > 0);

        // Both are the same demo: the same numbers, in two rooms.
        var next = await NextAsync(group.North);
        var reply = await Get<ScanDesk>(group.North).RecordAsync(new ScanRequest(Guid.NewGuid(), next.Number, "frame-1", ScanAction.Start, "Test") { Ticked = CheckLists.All });
        Assert.True(reply.Accepted, reply.Sentence);
        await UntilAsync(() => Get<BoardState>(group.North).Now.Sheets[next.Id].State == SheetState.Running);
        await using var south = await Get<IDbContextFactory<PlateRoomDb>>(group.South).CreateDbContextAsync();
        Assert.Equal(SheetState.Waiting, (await south.Sheets.SingleAsync(s => s.Number == next.Number)).State);
        Assert.False(await south.Scans.AnyAsync(s => s.SheetId == next.Id));

        // One model of the records serves all sites of a program.
        await using var north = await Get<IDbContextFactory<PlateRoomDb>>(group.North).CreateDbContextAsync();
        Assert.Same(north.Model, south.Model);
    }

    [Fact]
    public async Task NewsOfSheets_StayAtTheirSite_AndNewsOfPeople_GoToAll()
    {
        const int Made = 987_654;
        var (sheets, people) = (false, false);
        Get<RoomEvents>(group.South).Changed += change => sheets |= change.SheetIds.Contains(Made);
        Get<AccountDesk>(group.South).Changed += id => people |= id == Made;

        // Told in this order over one line: when the second has arrived, the first would have.
        Get<RoomEvents>(group.North).TellChanged([Made]);
        Get<AccountDesk>(group.North).TellChanged(Made);
        await UntilAsync(() => people);
        Assert.False(sheets);
    }

    [Fact]
    public async Task WhoHasARoleAtOneSite_ComesInThereOnly_UntilTheOtherSaysSo()
    {
        var (here, there) = (Get<AccountDesk>(group.North), Get<AccountDesk>(group.South));
        var ines = await here.CreateAsync("Ines Harbour", Role.Csr, "Test", everySite: false);
        await here.ChoosePasswordAsync(ines.AccountId, ines.Code, Password);
        using var north = new Visitor(group.North);
        using (var answer = await north.SubmitAsync("/sign-in", "input[name='Typed.Name']", new() { ["Typed.Name"] = "Ines Harbour", ["Typed.Password"] = Password }))
        {
            Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        }

        Assert.Equal(HttpStatusCode.OK, (await north.GetAsync("/board")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await north.GetAsync("/orders/new")).StatusCode);

        // The browser has signed in at both, but at the other site there is nothing for this person to see.
        using var south = new Visitor(group.South, north.Cookies);
        using (var refused = await south.GetAsync("/board"))
        {
            Assert.Equal(HttpStatusCode.Redirect, refused.StatusCode);
            Assert.Contains("/not-allowed", refused.Headers.Location!.OriginalString, StringComparison.Ordinal);
        }

        Assert.DoesNotContain(await there.ListAsync(), l => l.Account.UserName == "Ines Harbour");
        await there.SetRolesAsync(ines.AccountId, Role.Operator, "Test", everySite: false);
        Assert.Equal(Role.Operator, Assert.Single(await there.ListAsync(), l => l.Account.UserName == "Ines Harbour").Here);

        // Changed roles end the session; a new one knows both.
        using var again = new Visitor(group.South);
        using (var answer = await again.SubmitAsync("/sign-in", "input[name='Typed.Name']", new() { ["Typed.Name"] = "Ines Harbour", ["Typed.Password"] = Password }))
        {
            Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        }

        Assert.Equal(HttpStatusCode.OK, (await again.GetAsync("/board")).StatusCode);
        Assert.Equal(HttpStatusCode.Redirect, (await again.GetAsync("/orders/new")).StatusCode);
        using var back = new Visitor(group.North, again.Cookies);
        Assert.Equal(HttpStatusCode.OK, (await back.GetAsync("/orders/new")).StatusCode);

        await using var db = await Get<IDbContextFactory<PlateRoomDb>>(group.South).CreateDbContextAsync();
        Assert.True(await db.AuditEntries.AnyAsync(a => a.Record == nameof(SiteRole) && a.Key == "Ines Harbour at south"));
    }

    [Fact]
    public async Task WhoKeepsAccountsAtOneSite_DoesNotReachTheOther()
    {
        var (here, there) = (Get<AccountDesk>(group.North), Get<AccountDesk>(group.South));
        await here.CreateAsync("Keeper North", Role.Administrator, "Test", everySite: false);
        var both = await here.CreateAsync("Works Everywhere", Role.Lead, "Test", everySite: true);
        var mine = await here.CreateAsync("Works North", Role.Operator, "Keeper North", everySite: false);
        await here.SetRolesAsync(mine.AccountId, Role.Lead, "Keeper North", everySite: false);
        await here.InviteAsync(mine.AccountId, "Keeper North");
        await there.SetRolesAsync(mine.AccountId, Role.Operator, "Test", everySite: false);
        foreach (var reach in new Func<Task>[]
        {
            () => here.CreateAsync("Sneaks In", Role.Administrator, "Keeper North", everySite: true),
            () => here.SetRolesAsync(mine.AccountId, Role.Administrator, "Keeper North", everySite: true),
            () => here.SetRolesAsync(both.AccountId, Role.Csr, "Keeper North", everySite: false),
            () => here.InviteAsync(both.AccountId, "Keeper North"),
            () => here.InviteAsync(mine.AccountId, "Keeper North"),
            () => here.GiveBadgeAsync(both.AccountId, "Keeper North"),
            () => here.ForgetSecondFactorAsync(both.AccountId, "Keeper North"),
            () => here.SetActiveAsync(both.AccountId, false, "Keeper North"),
        })
        {
            await Assert.ThrowsAsync<PlateRoomException>(reach);
        }

        // Rights at a site can be taken away there; the account stays for the other.
        await here.SetRolesAsync(mine.AccountId, Role.None, "Test", everySite: false);
        Assert.DoesNotContain(await here.ListAsync(), l => l.Account.Id == mine.AccountId);
        Assert.Equal(["south"], Assert.Single(await here.ListAsync(ofAllSites: true), l => l.Account.Id == mine.AccountId).Elsewhere);
    }

    [Fact]
    public async Task ACalendarOfASite_BelongsToAnAccountOfTheGroup()
    {
        var owner = await Get<AccountDesk>(group.South).CreateAsync("Lena Reeve", Role.Manager, "Test", everySite: false);
        await Get<CalendarFeeds>(group.South).CreateAsync(owner.AccountId, CalendarContent.DueTimes, "Lena Reeve");
        await using var south = await Get<IDbContextFactory<PlateRoomDb>>(group.South).CreateDbContextAsync();
        Assert.True(await south.CalendarFeeds.AnyAsync(f => f.AccountId == owner.AccountId));
        await using var north = await Get<IDbContextFactory<PlateRoomDb>>(group.North).CreateDbContextAsync();
        Assert.False(await north.CalendarFeeds.AnyAsync());
    }

    [Fact]
    public async Task TheGroupSeesHowEverySiteStands()
    {
        var standings = new GroupStandings(Get<IDbContextFactory<PlateRoomDb>>(group.North));
        IReadOnlyList<SiteStanding> told = [];
        await UntilAsync(() => (told = standings.ReadAsync().GetAwaiter().GetResult()) is { Count: 2 } all && all.All(s => s.PlannedUtc is not null && s.OpenSheets > 0));
        Assert.Equal(["north", "south"], told.Select(s => s.Site).Order());
        Assert.Equal(group.South.Url, told.Single(s => s.Site == "south").Address);
        Assert.All(told, s => Assert.True(s.OpenTickets > 0 && s.LastFinishUtc > s.PlannedUtc));
    }

    [Fact]
    public async Task TheCompanysSignIn_GivesRolesHere_BesideThoseAtEverySite_AndEndsNoSessionsWhenNothingIsNew()
    {
        var desk = Get<AccountDesk>(group.South);
        var account = await desk.FromProviderAsync("https://id.example", "subject-1", "Otto Vale", Role.Operator);
        Assert.Equal(Role.None, account.Roles);
        await desk.SetRolesAsync(account.Id, Role.Manager, "Test", everySite: true);
        await desk.FromProviderAsync("https://id.example", "subject-1", "Otto Vale", Role.Operator);
        Assert.Equal((Role.Manager, Role.Operator), await RolesAsync());

        var changes = 0;
        desk.Changed += id => changes += id == account.Id ? 1 : 0;
        await desk.FromProviderAsync("https://id.example", "subject-1", "Otto Vale", Role.Operator);
        Assert.Equal(0, changes);
        await desk.FromProviderAsync("https://id.example", "subject-1", "Otto Vale", Role.Lead);
        Assert.Equal((Role.Manager, Role.Lead), await RolesAsync());

        async Task<(Role, Role)> RolesAsync() => (await desk.ListAsync()).Single(l => l.Account.Id == account.Id) is var line ? (line.Account.Roles, line.Here) : default;
    }

    [Theory]
    [InlineData("People")]
    [InlineData("people")]
    [InlineData("public")]
    [InlineData("pg_north")]
    [InlineData("north\"; DROP SCHEMA people; --")]
    [InlineData("1north")]
    [InlineData("")]
    [InlineData("a_key_that_is_much_too_long_for_one")]
    public void Key_ThatTheDatabaseNeedsItself_OrThatIsNone_IsRefused(string key) => Assert.Throws<PlateRoomException>(() => new SiteKey(key));

    [Fact]
    public void Settings_SayWhichSitesAreServed()
    {
        Assert.Empty(SiteOptions.Served(Settings([])));
        var sites = new Dictionary<string, string?> { ["Database:Provider"] = "PostgreSql", ["Sites:north:Urls"] = "http://localhost:5081", ["Sites:south:Urls"] = "http://localhost:5082" };
        Assert.Equal(["north", "south"], SiteOptions.Served(Settings(sites)).Select(s => s.Value));
        Assert.Equal(["south"], SiteOptions.Served(Settings(new(sites) { ["Site:Here"] = "south" })).Select(s => s.Value));
        Assert.Empty(SiteOptions.Served(Settings(new(sites) { ["Site:Key"] = "south" })));
        Assert.Contains("“east”", Assert.Throws<PlateRoomException>(() => SiteOptions.Served(Settings(new(sites) { ["Site:Here"] = "east" }))).Message, StringComparison.Ordinal);
        Assert.Contains("PostgreSql", Assert.Throws<PlateRoomException>(() => SiteOptions.Served(Settings(new(sites) { ["Database:Provider"] = "Sqlite" }))).Message, StringComparison.Ordinal);
        Assert.Contains("PostgreSql", Assert.Throws<PlateRoomException>(() => PlateRoomApp.Build(["--site", "north"])).Message, StringComparison.Ordinal);
        Assert.Contains("Sites:east:Urls", Assert.Throws<PlateRoomException>(() => SiteOptions.Served(Settings(new(sites) { ["Sites:east:Room:TimeZone"] = "UTC" }))).Message, StringComparison.Ordinal);
    }

    private static IConfiguration Settings(Dictionary<string, string?> values) => new ConfigurationBuilder().AddInMemoryCollection(values).Build();

    private static T Get<T>(RoomServer site)
        where T : notnull => site.Services.GetRequiredService<T>();

    private static async Task<Sheet> NextAsync(RoomServer site)
    {
        await using var db = await Get<IDbContextFactory<PlateRoomDb>>(site).CreateDbContextAsync();
        foreach (var running in await db.Sheets.AsNoTracking().Where(s => s.Stages.Any(t => t.State == StageState.Running && t.Equipment!.Slug == "frame-1")).ToListAsync())
        {
            await Get<ScanDesk>(site).RecordAsync(new ScanRequest(Guid.NewGuid(), running.Number, "frame-1", ScanAction.Finish, "Test", Confirmed: true));
        }

        return await db.Sheets.AsNoTracking()
            .Where(s => s.State == SheetState.Waiting && s.Stages.OrderBy(t => t.Station).First(t => t.State != StageState.Done).Station == Station.BackExposure)
            .OrderBy(s => s.Id).FirstAsync();
    }

    private static async Task UntilAsync(Func<bool> holds)
    {
        var watch = System.Diagnostics.Stopwatch.StartNew();
        while (!holds())
        {
            Assert.True(watch.Elapsed < TimeSpan.FromSeconds(40), "It did not come about.");
            await Task.Delay(50);
        }
    }

    /// <summary>Both sites, started at the same time on an empty server.</summary>
    public sealed class Group : IAsyncLifetime
    {
        private readonly PostgresServer _server = new();

        internal RoomServer North { get; private set; } = null!;

        internal RoomServer South { get; private set; } = null!;

        public async Task InitializeAsync()
        {
            await _server.InitializeAsync();
            var both = await Task.WhenAll(StartAsync("north"), StartAsync("south"));
            (North, South) = (both[0], both[1]);
        }

        public async Task DisposeAsync()
        {
            await North.DisposeAsync();
            await South.DisposeAsync();
            await _server.DisposeAsync();
        }

        private Task<RoomServer> StartAsync(string site) =>
            RoomServer.StartAsync("demo", null, "--Database:Provider", nameof(DatabaseKind.PostgreSql), "--Database:ConnectionString", _server.Connection("group"), "--site", site);
    }
}
