using System.Net;
using System.Net.Http.Json;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Tests.Accounts;

namespace PlateTickets.Web.Tests;

/// <summary>What a browser is told to refuse, and what the program refuses by itself.</summary>
public sealed class HardeningTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    public static TheoryData<string> Answers => new("/sign-in", "/orders", "/api/v1/board", "/openapi/v1.json", "/nothing-here", "/api/v1/nothing-here", "/css/frame.css");

    [Theory]
    [MemberData(nameof(Answers))]
    public async Task EveryAnswer_CarriesTheHeaders(string address)
    {
        using var visitor = await Visitor.AsDemoAsync(room.Server, Role.Manager);
        using var reply = await visitor.GetAsync(address);
        var policy = reply.Headers.GetValues("Content-Security-Policy").Single().Split(';', StringSplitOptions.TrimEntries).ToDictionary(d => d.Split(' ')[0], d => d.Split(' ')[1..]);
        Assert.Equal(["'self'"], policy["script-src"]);
        Assert.Equal(["'none'"], policy["object-src"]);
        Assert.Equal(["'none'"], policy["frame-ancestors"]);
        Assert.Equal(["'self'"], policy["base-uri"]);
        Assert.Equal(["'self'"], policy["form-action"]);
        Assert.Equal("nosniff", reply.Headers.GetValues("X-Content-Type-Options").Single());
        Assert.Equal("same-origin", reply.Headers.GetValues("Referrer-Policy").Single());
        Assert.False(reply.Headers.Contains("Server"));
    }

    /// <summary>No page may hold a script of its own: the policy would stop it, and the page with it.</summary>
    [Theory]
    [InlineData("/sign-in")]
    [InlineData("/orders")]
    [InlineData("/account")]
    public async Task Pages_HoldNoInlineScript(string address)
    {
        using var visitor = await Visitor.AsDemoAsync(room.Server, Role.Manager);
        var page = await visitor.PageAsync(address);
        Assert.All(page.QuerySelectorAll("script"), s => Assert.NotNull(s.GetAttribute("src")));
        Assert.DoesNotContain(page.All, e => e.Attributes.Any(a => a.Name.StartsWith("on", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task Cookies_AreForThisSiteAndNotForScripts()
    {
        using var visitor = await Visitor.AsDemoAsync(room.Server, Role.Manager);
        using var again = await visitor.SubmitAsync("/sign-in", $"input[value={Role.Manager}]", []);
        var cookies = again.Headers.GetValues("Set-Cookie").ToList();
        Assert.NotEmpty(cookies);
        Assert.All(cookies, c => Assert.Contains("httponly", c, StringComparison.OrdinalIgnoreCase));
        Assert.All(cookies, c => Assert.Matches("samesite=(lax|strict)", c));
        using var page = await visitor.GetAsync("/sign-in");
        Assert.All(page.Headers.TryGetValues("Set-Cookie", out var more) ? more : [], c => Assert.Contains("samesite=strict", c, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public async Task CookiesOfHttps_NeverGoWithoutIt()
    {
        await using var proxied = await RoomServer.StartAsync("empty", builder => builder.Configuration["Room:BehindProxy"] = "true");
        await proxied.Services.GetRequiredService<AccountDesk>().FirstManagerAsync("Mara Field", "lantern gravel seventeen otter");
        using var visitor = new Visitor(proxied);
        var page = await visitor.PageAsync("/sign-in");
        using var http = new HttpClient(new HttpClientHandler { UseCookies = false, AllowAutoRedirect = false }) { BaseAddress = new Uri(proxied.Url) };
        using var request = new HttpRequestMessage(HttpMethod.Get, "/sign-in");
        request.Headers.Add("X-Forwarded-Proto", "https");
        using var reply = await http.SendAsync(request);
        Assert.All(reply.Headers.GetValues("Set-Cookie"), c => Assert.Contains("secure", c, StringComparison.OrdinalIgnoreCase));
        Assert.NotNull(page);
    }

    [Theory]
    [InlineData("/sign-in", "input[name='Typed.Name']")]
    [InlineData("/account", "input[value=everywhere]")]
    [InlineData("/settings/tablets", "input[name=Name]")]
    public async Task FormWithoutItsToken_IsRefused(string address, string within)
    {
        using var visitor = await Visitor.AsDemoAsync(room.Server, Role.Manager);
        using var reply = await visitor.SubmitAsync(address, within, [], withToken: false);
        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Equal("Demo manager", await visitor.NameAsync());
    }

    [Theory]
    [InlineData("cross-site")]
    [InlineData("same-site")]
    [InlineData(null)]
    public async Task WriteWithACookie_ComesFromThisSiteOrNotAtAll(string? site)
    {
        using var visitor = await Visitor.AsDemoAsync(room.Server, Role.Manager);
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/promises") { Content = JsonContent.Create(new { material = "Aster 170" }) };
        if (site is not null)
        {
            request.Headers.Add("Sec-Fetch-Site", site);
        }

        using var reply = await visitor.SendAsync(request);
        Assert.Equal(HttpStatusCode.Forbidden, reply.StatusCode);
        Assert.Contains("Another site may not write here", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        using var own = new HttpRequestMessage(HttpMethod.Post, "/api/v1/promises") { Content = JsonContent.Create(new { material = "Aster 170" }) };
        own.Headers.Add("Sec-Fetch-Site", "same-origin");
        using var taken = await visitor.SendAsync(own);
        Assert.Equal(HttpStatusCode.OK, taken.StatusCode);
    }

    [Theory]
    [InlineData("X-Forwarded-For", "10.0.0.9")]
    [InlineData("Forwarded", "for=10.0.0.9")]
    public async Task DemoButtons_AreForThisMachineOnly(string header, string value)
    {
        using var visitor = new Visitor(room.Server);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/sign-in");
        request.Headers.Add(header, value);
        using var reply = await visitor.SendAsync(request);
        Assert.DoesNotContain("demo-roles", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("demo-roles", await (await visitor.GetAsync("/sign-in")).Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/css/..%2f..%2fappsettings.json")]
    [InlineData("/css/%2e%2e/%2e%2e/appsettings.json")]
    [InlineData("/..%5c..%5cappsettings.json")]
    [InlineData("/data/plate-room.db")]
    [InlineData("/appsettings.json")]
    public async Task FilesBesideThePages_AreNotServed(string address)
    {
        using var visitor = await Visitor.AsDemoAsync(room.Server, Role.Administrator);
        using var reply = await visitor.GetAsync(address);
        Assert.Contains(reply.StatusCode, new[] { HttpStatusCode.NotFound, HttpStatusCode.BadRequest });
        Assert.DoesNotContain("AllowedHosts", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    /// <summary>A file's name is a name, never a way.</summary>
    [Theory]
    [InlineData("../../../../tmp/cyan.tif")]
    [InlineData("..\\..\\cyan.tif")]
    [InlineData("/etc/passwd")]
    public async Task NameOfAFile_LeadsNowhere(string name)
    {
        using var entered = await room.EnterOrderAsync();
        var order = (await entered.Content.ReadFromJsonAsync<Dictionary<string, string>>())!;
        using var reply = await room.Http.PostAsync(order["separations"], HttpRoom.Form((name, [1, 2, 3])));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, reply.StatusCode);
        var sentence = await reply.Content.ReadAsStringAsync();
        Assert.DoesNotContain("../", sentence, StringComparison.Ordinal);
    }
}
