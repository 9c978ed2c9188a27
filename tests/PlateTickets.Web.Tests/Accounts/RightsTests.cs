using System.Net;
using System.Net.Http.Headers;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Tests.Accounts;

/// <summary>Each page and endpoint, as each role and as nobody: allowed or refused as the table says.</summary>
public sealed class RightsTests : IAsyncLifetime
{
    private RoomServer _room = null!;

    private IReadOnlyList<Guarded> Table => RightsTable.Of(_room.Services.GetRequiredService<EndpointDataSource>().Endpoints);

    public async Task InitializeAsync() => _room = await RoomServer.StartAsync();

    public async Task DisposeAsync() => await _room.DisposeAsync();

    [Fact]
    public void TableOfTheDocs_IsTheProgrammes() => Assert.Equal(
        RightsTable.Markdown(Table), File.ReadAllText(Path.Combine(Repository.Root, "docs", "rights.md")));

    [Fact]
    public async Task EveryAddress_LetsInWhoTheTableSays_AndNobodyElse()
    {
        var wrong = new List<string>();
        Assert.InRange(Table.Count, 40, 500);
        foreach (var role in Rights.Roles.Prepend(Role.None))
        {
            using var person = role == Role.None ? new Visitor(_room) : await Visitor.AsDemoAsync(_room, role);
            var key = role == Role.None ? null : await _room.KeyAsync(role);
            foreach (var row in Table)
            {
                var may = row.Right is not { } right || Rights.Of(role).HasFlag(right);
                using var asPerson = await person.SendAsync(Request(row, null));
                Check(row, role, may, asPerson, "by cookie");
                if (!row.IsPage && key is not null)
                {
                    using var asProgram = await person.SendAsync(Request(row, key));
                    Check(row, role, may, asProgram, "by key");
                }

                if (row.Address == Urls.SignOut && role != Role.None)
                {
                    Assert.NotNull(await person.NameAsync());
                }
            }
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));

        void Check(Guarded row, Role role, bool may, HttpResponseMessage answer, string how)
        {
            var location = answer.Headers.Location?.ToString() ?? "";
            var refused = answer.StatusCode is HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden
                || (row.IsPage && (location.Contains(Urls.SignIn + "?", StringComparison.Ordinal) || location.Contains(Urls.NotAllowed, StringComparison.Ordinal)));
            // The page that tells of it answers 403 to everybody who opens it.
            if (refused == may && row.Address != Urls.NotAllowed)
            {
                wrong.Add($"{role} {how}: {row.Method} {row.Address} gave {(int)answer.StatusCode} {location}, but the table says {(may ? "allowed" : "refused")}.");
            }
        }
    }

    [Fact]
    public async Task BadgeOnATablet_HasNoMoreThanStationWork()
    {
        using var manager = await Visitor.AsDemoAsync(_room, Role.Manager);
        using var _ = await manager.SubmitAsync(Urls.Tablets, "input[name=Name]", new() { ["Name"] = "Frame 1" });
        var desk = _room.Services.GetRequiredService<AccountDesk>();
        var account = await desk.DemoAsync(Role.Manager);
        var badge = await desk.GiveBadgeAsync(account.Id, "Test");
        using var signedIn = await manager.SubmitAsync(Urls.SignIn, "input[name='Badge.Number']", new() { ["Badge.Number"] = badge.Number, ["Badge.Pin"] = badge.Pin });
        Assert.Equal(HttpStatusCode.Redirect, signedIn.StatusCode);
        // Long enough that the account was looked up again: it must not come back with more rights.
        _room.Clock.Advance(TimeSpan.FromMinutes(5));
        foreach (var (address, may) in new[] { (Urls.Station("frame-1"), true), (Urls.Orders, true), (Urls.NewOrder, false), (Urls.Layout, false), (Urls.Tablets, false) })
        {
            using var answer = await manager.GetAsync(address);
            Assert.Equal(may ? HttpStatusCode.OK : HttpStatusCode.Redirect, answer.StatusCode);
        }
    }

    private static HttpRequestMessage Request(Guarded row, string? key)
    {
        var address = row.Address.Replace("{number}", "T00000000", StringComparison.Ordinal).Replace("{Number}", "T00000000", StringComparison.Ordinal)
            .Replace("{Slug}", "frame-1", StringComparison.Ordinal).Replace("{slug}", "dryer", StringComparison.Ordinal).Replace("{documentName}", "v1", StringComparison.Ordinal).Replace("{secret}", "none", StringComparison.Ordinal).Replace("{entry}", "Q1", StringComparison.Ordinal).Replace("{Token}", "none", StringComparison.Ordinal);
        address = System.Text.RegularExpressions.Regex.Replace(address, @"\{\w+:int\}", "1");
        Assert.DoesNotContain('{', address);
        var request = new HttpRequestMessage(row.IsPage ? HttpMethod.Get : new HttpMethod(row.Method), address);
        if (key is not null)
        {
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
        }
        else
        {
            request.Headers.Add("Sec-Fetch-Site", "same-origin");
        }

        return request;
    }
}
