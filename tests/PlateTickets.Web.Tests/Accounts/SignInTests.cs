using System.Collections.Concurrent;
using System.Net;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using OtpNet;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Tests.Accounts;

/// <summary>An empty room, from the set-up code in the log to the last session that ends.</summary>
public sealed class SignInTests : IAsyncLifetime
{
    private const string Password = "lantern gravel seventeen otter";

    private readonly Lines _log = new();
    private RoomServer _room = null!;

    private AccountDesk Desk => _room.Services.GetRequiredService<AccountDesk>();

    public async Task InitializeAsync() => _room = await RoomServer.StartAsync("empty", builder => builder.Logging.AddProvider(_log));

    public async Task DisposeAsync() => await _room.DisposeAsync();

    [Fact]
    public async Task FirstManager_IsMadeWithTheCodeInTheLog_OnceAndOnlyWithIt()
    {
        using var visitor = new Visitor(_room);
        using var wrong = await MakeAsync(visitor, "ABCD-EFGH-JKMN", Password);
        Assert.Contains("This is not the set-up code", await Visitor.RefusalAsync(wrong), StringComparison.Ordinal);
        using var weak = await MakeAsync(visitor, Code(), "Harbour2026!");
        Assert.Contains("has 12 characters. It needs 15 or more", await Visitor.RefusalAsync(weak), StringComparison.Ordinal);
        using var made = await MakeAsync(visitor, Code().ToLowerInvariant(), Password);
        Assert.Equal(HttpStatusCode.Redirect, made.StatusCode);
        Assert.Equal("Mara Field", await visitor.NameAsync());
        using var page = await visitor.GetAsync(Urls.Accounts);
        Assert.Equal(HttpStatusCode.OK, page.StatusCode);
        using var second = await MakeAsync(new Visitor(_room), Code(), Password);
        Assert.Contains("has its first manager already", await Visitor.RefusalAsync(second), StringComparison.Ordinal);
    }

    [Fact]
    public async Task SetUpCode_IsNotToBeGuessed()
    {
        using var visitor = new Visitor(_room);
        for (var i = 0; i < 10; i++)
        {
            using var _ = await MakeAsync(visitor, "ABCD-EFGH-JKMN", Password);
        }

        using var right = await MakeAsync(visitor, Code(), Password);
        Assert.Contains("Too many wrong codes", await Visitor.RefusalAsync(right), StringComparison.Ordinal);
        Assert.False(await Desk.AnyAsync());
    }

    [Fact]
    public async Task WrongPasswords_LockTheAccount_AndAnAdministratorUnlocksIt()
    {
        var account = await Desk.FirstManagerAsync("Mara Field", Password);
        using var visitor = new Visitor(_room);
        for (var i = 0; i < 5; i++)
        {
            using var wrong = await SignInAsync(visitor, "Mara Field", "not her password at all");
            Assert.NotEmpty(await Visitor.RefusalAsync(wrong));
        }

        using var locked = await SignInAsync(visitor, "Mara Field", Password);
        Assert.Contains("this account is locked for a while", await Visitor.RefusalAsync(locked), StringComparison.Ordinal);
        await Desk.UnlockAsync(account.Id, "Test");
        using var right = await SignInAsync(visitor, "mara field", Password);
        Assert.Equal(HttpStatusCode.Redirect, right.StatusCode);
        Assert.Equal("Mara Field", await visitor.NameAsync());
        Assert.Equal(_room.Clock.GetUtcNow().UtcDateTime, (await Desk.ListAsync())[0].Account.LastSignInUtc);
    }

    [Fact]
    public async Task UnknownName_AndWrongPassword_AreRefusedWithTheSameSentence()
    {
        await Desk.FirstManagerAsync("Mara Field", Password);
        using var visitor = new Visitor(_room);
        using var unknown = await SignInAsync(visitor, "Nobody", Password);
        using var wrong = await SignInAsync(visitor, "Mara Field", "not her password at all");
        Assert.Equal(await Visitor.RefusalAsync(unknown), await Visitor.RefusalAsync(wrong));
    }

    /// <summary>RFC 6238 codes by another implementation (Otp.NET).</summary>
    [Fact]
    public async Task SecondFactor_AsksForTheAppsDigits_OrARecoveryCodeOnce()
    {
        await Desk.FirstManagerAsync("Mara Field", Password);
        using var visitor = new Visitor(_room);
        using var _ = await SignInAsync(visitor, "Mara Field", Password);
        using var start = await visitor.SubmitAsync(Urls.Account, "input[value=second-start]", []);
        var page = Visitor.Parse(await start.Content.ReadAsStringAsync());
        var key = page.QuerySelector("code.key")!.TextContent.Replace(" ", "", StringComparison.Ordinal).ToUpperInvariant();
        var app = new Totp(Base32Encoding.ToBytes(key));
        using var wrong = await visitor.SendFormAsync(page, Urls.Account, "input[name=Code]", new() { ["Code"] = Other(app.ComputeTotp()) });
        Assert.Contains("These digits are not right", await Visitor.RefusalAsync(wrong), StringComparison.Ordinal);
        using var on = await visitor.SendFormAsync(page, Urls.Account, "input[name=Code]", new() { ["Code"] = app.ComputeTotp() });
        var codes = Visitor.Parse(await on.Content.ReadAsStringAsync()).QuerySelectorAll(".codes code").Select(c => c.TextContent).ToList();
        Assert.Equal(10, codes.Count);

        using var other = new Visitor(_room);
        using var first = await SignInAsync(other, "Mara Field", Password);
        Assert.StartsWith(Urls.SecondFactor, first.Headers.Location!.OriginalString.Replace(_room.Url, "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Null(await other.NameAsync());
        using var bad = await other.SubmitAsync(Urls.SecondFactor, "input[name=Code]", new() { ["Code"] = Other(app.ComputeTotp()) });
        Assert.Contains("This code is not right", await Visitor.RefusalAsync(bad), StringComparison.Ordinal);
        using var good = await other.SubmitAsync(Urls.SecondFactor, "input[name=Code]", new() { ["Code"] = app.ComputeTotp() });
        Assert.Equal("Mara Field", await other.NameAsync());

        foreach (var works in new[] { true, false })
        {
            using var lost = new Visitor(_room);
            using var again = await SignInAsync(lost, "Mara Field", Password);
            using var recovered = await lost.SubmitAsync(Urls.SecondFactor, "input[name=Code]", new() { ["Code"] = codes[0] });
            Assert.Equal(works, await lost.NameAsync() == "Mara Field");
        }

        // Whoever has a copy of the database has neither.
        await using (var db = await _room.Services.GetRequiredService<IDbContextFactory<PlateRoomDb>>().CreateDbContextAsync())
        {
            var kept = await db.UserTokens.Select(t => t.Value!).ToListAsync();
            Assert.Equal(2, kept.Count);
            Assert.All(kept, v => Assert.StartsWith("protected:", v, StringComparison.Ordinal));
            Assert.DoesNotContain(kept, v => v.Contains(key, StringComparison.OrdinalIgnoreCase) || codes.Exists(c => v.Contains(c, StringComparison.Ordinal)));

            // With the keys of another machine nobody gets in by it, and nothing breaks.
            await db.UserTokens.ExecuteUpdateAsync(s => s.SetProperty(t => t.Value, "protected:of another machine"));
        }

        using var moved = new Visitor(_room);
        using var known = await SignInAsync(moved, "Mara Field", Password);
        using var refused = await moved.SubmitAsync(Urls.SecondFactor, "input[name=Code]", new() { ["Code"] = app.ComputeTotp() });
        Assert.Contains("This code is not right", await Visitor.RefusalAsync(refused), StringComparison.Ordinal);
        Assert.Null(await moved.NameAsync());
        Assert.Contains(_log.All, l => l.Contains("cannot be read with the keys of this machine", StringComparison.Ordinal));

        // A key that lets somebody in is in nobody's log and in no trail.
        Assert.DoesNotContain(_log.All, l => l.Contains(key, StringComparison.Ordinal) || l.Contains(Password, StringComparison.Ordinal));
    }

    [Fact]
    public async Task Invitation_WorksOnce_AndTheOldSessionsEnd()
    {
        await Desk.FirstManagerAsync("Mara Field", Password);
        var invited = await Desk.CreateAsync("  Tom   Reed ", Role.Operator, "Mara Field");
        Assert.Equal("Tom Reed", invited.Name);
        using var visitor = new Visitor(_room);
        var link = Urls.Password(invited.AccountId, invited.Code);
        using var twice = await visitor.SubmitAsync(link, "input[name='Typed.Again']", new() { ["Typed.Password"] = "copper ladder window frost", ["Typed.Again"] = "copper ladder window" });
        Assert.Contains("The two passwords are not the same", await Visitor.RefusalAsync(twice), StringComparison.Ordinal);
        using var chosen = await ChooseAsync(visitor, link, "copper ladder window frost");
        Assert.Equal("Tom Reed", await visitor.NameAsync());
        using var again = await ChooseAsync(new Visitor(_room), link, "another four good words here");
        Assert.Contains("This link is not good any more", await Visitor.RefusalAsync(again), StringComparison.Ordinal);

        await Desk.SetActiveAsync(invited.AccountId, false, "Mara Field");
        _room.Clock.Advance(TimeSpan.FromSeconds(31));
        Assert.Null(await visitor.NameAsync());
        using var off = await SignInAsync(visitor, "Tom Reed", "copper ladder window frost");
        Assert.NotEmpty(await Visitor.RefusalAsync(off));
    }

    [Fact]
    public async Task Session_EndsAfterTwelveHours_WhateverHappensInIt()
    {
        await Desk.FirstManagerAsync("Mara Field", Password);
        using var visitor = new Visitor(_room);
        using var _ = await SignInAsync(visitor, "Mara Field", Password);
        for (var hour = 0; hour < 11; hour++)
        {
            _room.Clock.Advance(TimeSpan.FromHours(1));
            Assert.Equal("Mara Field", await visitor.NameAsync());
        }

        _room.Clock.Advance(TimeSpan.FromHours(1.1));
        Assert.Null(await visitor.NameAsync());
    }

    [Fact]
    public async Task NewPassword_EndsTheOtherSessions_AndKeepsThisOne()
    {
        await Desk.FirstManagerAsync("Mara Field", Password);
        using var here = new Visitor(_room);
        using var there = new Visitor(_room);
        using var a = await SignInAsync(here, "Mara Field", Password);
        using var b = await SignInAsync(there, "Mara Field", Password);
        using var wrong = await ChangeAsync(here, "not the old one, surely", "harvest pencil mountain spoon");
        Assert.Contains("The password so far is not right", await Visitor.RefusalAsync(wrong), StringComparison.Ordinal);
        using var changed = await ChangeAsync(here, Password, "harvest pencil mountain spoon");
        Assert.Empty(await Visitor.RefusalAsync(changed));
        _room.Clock.Advance(TimeSpan.FromSeconds(31));
        Assert.Equal("Mara Field", await here.NameAsync());
        Assert.Null(await there.NameAsync());
    }

    [Fact]
    public async Task Badge_WorksOnARegisteredTabletOnly_AndLocksAfterWrongPins()
    {
        var manager = await Desk.FirstManagerAsync("Mara Field", Password);
        var operatorId = (await Desk.CreateAsync("Tom Reed", Role.Operator, "Mara Field")).AccountId;
        var badge = await Desk.GiveBadgeAsync(operatorId, "Mara Field");
        using var elsewhere = new Visitor(_room);
        Assert.Null((await elsewhere.PageAsync(Urls.SignIn)).QuerySelector("input[name='Badge.Number']"));

        using var tablet = new Visitor(_room);
        using var a = await SignInAsync(tablet, "Mara Field", Password);
        using var b = await tablet.SubmitAsync(Urls.Tablets, "input[name=Name]", new() { ["Name"] = "Washer" });
        using var c = await tablet.SubmitAsync(Urls.Account, $"form[action='{Urls.SignOut}'] input", []);
        Assert.Null(await tablet.NameAsync());
        using var wrong = await BadgeAsync(tablet, badge.Number, Other(badge.Pin));
        Assert.Contains("Badge and PIN do not go together", await Visitor.RefusalAsync(wrong), StringComparison.Ordinal);
        using var sheet = await BadgeAsync(tablet, "S12345678", badge.Pin);
        Assert.NotEmpty(await Visitor.RefusalAsync(sheet));
        using var right = await BadgeAsync(tablet, badge.Number.ToLowerInvariant(), badge.Pin);
        Assert.Equal("Tom Reed", await tablet.NameAsync());
        for (var i = 0; i < 5; i++)
        {
            await Assert.ThrowsAsync<Process.PlateRoomException>(() => Desk.ByBadgeAsync(badge.Number, Other(badge.Pin)));
        }

        Assert.Contains("Too many wrong PINs", (await Assert.ThrowsAsync<Process.PlateRoomException>(() => Desk.ByBadgeAsync(badge.Number, badge.Pin))).Message, StringComparison.Ordinal);
        await Desk.SetRolesAsync(manager.Id, Role.Manager | Role.Administrator | Role.Lead, "Mara Field");
    }

    [Fact]
    public async Task Demo_IsForDemoRoomsOnly()
    {
        using var visitor = new Visitor(_room);
        Assert.Null((await visitor.PageAsync(Urls.SignIn)).QuerySelector(".demo-roles"));
    }

    [Fact]
    public async Task LastAdministrator_CannotBeLost()
    {
        var manager = await Desk.FirstManagerAsync("Mara Field", Password);
        foreach (var lose in new Func<Task>[] { () => Desk.SetRolesAsync(manager.Id, Role.Manager, "Mara Field"), () => Desk.SetActiveAsync(manager.Id, false, "Mara Field") })
        {
            Assert.Contains("the last one who keeps accounts", (await Assert.ThrowsAsync<Process.PlateRoomException>(lose)).Message, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("https://elsewhere.example/", "/")]
    [InlineData("//elsewhere.example/", "/")]
    [InlineData("/\\elsewhere.example", "/")]
    [InlineData("javascript:alert(1)", "/")]
    [InlineData("/orders?done=true", "/orders?done=true")]
    public async Task AfterSigningIn_OneIsNeverSentToAnotherSite(string back, string expected)
    {
        await Desk.FirstManagerAsync("Mara Field", Password);
        using var visitor = new Visitor(_room);
        using var answer = await visitor.SubmitAsync(Urls.With(Urls.SignIn, back), "input[name='Typed.Name']", new() { ["Typed.Name"] = "Mara Field", ["Typed.Password"] = Password });
        Assert.Equal(expected, answer.Headers.Location!.OriginalString.Replace(_room.Url, "", StringComparison.Ordinal));
    }

    private string Code() => _log.All.Select(l => System.Text.RegularExpressions.Regex.Match(l, "Nobody has an account yet.*set-up code ([A-Z0-9-]{14})")).Single(m => m.Success).Groups[1].Value;

    // Another code of the same form.
    private static string Other(string digits) => digits[..^1] + (char)('0' + ((digits[^1] - '0' + 5) % 10));

    private static Task<HttpResponseMessage> MakeAsync(Visitor visitor, string code, string password) => visitor.SubmitAsync(
        Urls.SetUp, "input[name='Typed.Code']", new() { ["Typed.Code"] = code, ["Typed.Name"] = "Mara Field", ["Typed.Password"] = password, ["Typed.Again"] = password });

    private static Task<HttpResponseMessage> SignInAsync(Visitor visitor, string name, string password) => visitor.SubmitAsync(
        Urls.SignIn, "input[name='Typed.Name']", new() { ["Typed.Name"] = name, ["Typed.Password"] = password });

    private static Task<HttpResponseMessage> BadgeAsync(Visitor visitor, string number, string pin) => visitor.SubmitAsync(
        Urls.SignIn, "input[name='Badge.Number']", new() { ["Badge.Number"] = number, ["Badge.Pin"] = pin });

    private static Task<HttpResponseMessage> ChooseAsync(Visitor visitor, string link, string password) => visitor.SubmitAsync(
        link, "input[name='Typed.Again']", new() { ["Typed.Password"] = password, ["Typed.Again"] = password });

    private static Task<HttpResponseMessage> ChangeAsync(Visitor visitor, string old, string password) => visitor.SubmitAsync(
        Urls.Account, "input[name='Typed.Old']", new() { ["Typed.Old"] = old, ["Typed.Password"] = password, ["Typed.Again"] = password });

    private sealed class Lines : ILoggerProvider, ILogger
    {
        private readonly ConcurrentQueue<string> _lines = new();

        public IReadOnlyCollection<string> All => _lines;

        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            _lines.Enqueue(formatter(state, exception) + exception);

        public void Dispose()
        {
        }
    }
}
