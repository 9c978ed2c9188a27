using System.Net;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Accounts.Audit;
using PlateTickets.Web.Accounts;

namespace PlateTickets.Web.Tests.Accounts;

/// <summary>Sign-in by a provider that is not ours: OpenIddict's server, OpenID Connect Core 1.0 with PKCE, on loopback.</summary>
public sealed class SingleSignOnTests : IAsyncLifetime
{
    private CompanyProvider _company = null!;
    private RoomServer _room = null!;

    private AccountDesk Desk => _room.Services.GetRequiredService<AccountDesk>();

    public async Task InitializeAsync()
    {
        _company = await CompanyProvider.StartAsync();
        // Tokens are dated by the provider's clock, so the program's must be the real one here.
        _room = await RoomServer.StartAsync(
            "empty",
            builder => builder.Services.Replace(ServiceDescriptor.Singleton(TimeProvider.System)),
            "--SignIn:OpenIdConnect:Authority", _company.Url,
            "--SignIn:OpenIdConnect:ClientId", CompanyProvider.ClientId,
            "--SignIn:OpenIdConnect:ClientSecret", CompanyProvider.ClientSecret,
            "--SignIn:OpenIdConnect:Title", "Sign in at the harbour",
            "--SignIn:OpenIdConnect:Roles:plates-lead", "Lead",
            "--SignIn:OpenIdConnect:Roles:plates-csr", "Csr");
        await Desk.FirstManagerAsync("Mara Field", "lantern gravel seventeen otter");
    }

    public async Task DisposeAsync()
    {
        await _room.DisposeAsync();
        await _company.DisposeAsync();
    }

    [Fact]
    public async Task CompanyAccount_ComesInWithTheRolesOfItsGroups_AndLosesThemThere()
    {
        _company.Groups = ["plates-lead", "canteen"];
        using var visitor = new Visitor(_room);
        Assert.Equal("Sign in at the harbour", (await visitor.PageAsync("/sign-in?back=%2Frecipes")).QuerySelector("a.go")!.TextContent);
        Assert.Equal("/recipes", await ComeInAsync(visitor));
        Assert.Equal("Ines Harbour", await visitor.NameAsync());
        using (var recipes = await visitor.GetAsync("/recipes"))
        using (var accounts = await visitor.GetAsync("/accounts"))
        {
            Assert.Equal((HttpStatusCode.OK, HttpStatusCode.Redirect), (recipes.StatusCode, accounts.StatusCode));
        }

        _company.Groups = ["plates-csr", "plates-lead"];
        using var second = new Visitor(_room);
        Assert.Equal("/recipes", await ComeInAsync(second));
        var account = Assert.Single(await Desk.ListAsync(), a => a.Account.UserName == "Ines Harbour").Account;
        Assert.Equal(Role.Csr | Role.Lead, account.Roles);
        _company.Groups = ["canteen"];
        Assert.Contains("no role in this plate room", await RefusedAsync(), StringComparison.Ordinal);
        await Desk.SetActiveAsync(account.Id, false, "Test");
        _company.Groups = ["plates-csr"];
        Assert.Contains("is switched off", await RefusedAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task SameNameAsAnAccountHere_TakesNothingOver()
    {
        (_company.Name, _company.Groups) = ("Mara Field", ["plates-csr"]);
        Assert.Contains("Somebody is called Mara Field here already", await RefusedAsync(), StringComparison.Ordinal);
        Assert.Single(await Desk.ListAsync());
    }

    [Fact]
    public async Task ProviderSaysNo_PersonIsToldSo()
    {
        _company.Refuses = true;
        Assert.Contains("did not let you in", await RefusedAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnswerFromNowhere_SignsNobodyIn()
    {
        using var visitor = new Visitor(_room);
        using var answer = await visitor.GetAsync($"{Urls.SingleSignOnAnswer}?code=stolen&state=made-up");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        using var done = await visitor.GetAsync(Urls.CompanySignIn);
        Assert.Contains("too long ago", await Visitor.RefusalAsync(done), StringComparison.Ordinal);
        Assert.Null(await visitor.NameAsync());
    }

    [Theory]
    [InlineData("http://provider.example", "x", "Lead", "must be the https address")]
    [InlineData("https://provider.example", "", "Lead", "ClientId is missing")]
    [InlineData("https://provider.example", "x", null, "nobody could come in")]
    public void SettingThatCannotWork_IsNamed(string authority, string client, string? role, string sentence)
    {
        var settings = new SingleSignOnOptions { Authority = authority, ClientId = client };
        if (role is not null)
        {
            settings.Roles["a"] = Enum.Parse<Role>(role);
        }

        Assert.Contains(sentence, settings.Trouble, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SignIn_IsInTheTrail_WithoutSecrets()
    {
        _company.Groups = ["plates-csr"];
        using var visitor = new Visitor(_room);
        await ComeInAsync(visitor);
        var entries = await _room.Services.GetRequiredService<AuditQueries>().AllAsync(new AuditFilter()).ToListAsync();
        Assert.Contains(entries, e => e is { By: "Ines Harbour", Key: "Ines Harbour" } && $"{e.Field} {e.From} {e.To}".Contains("with the company account", StringComparison.Ordinal));
        Assert.DoesNotContain(entries, e => $"{e.From} {e.To}".Contains(CompanyProvider.ClientSecret, StringComparison.Ordinal));
    }

    // From the button to where the person wanted to go, through the provider and back.
    private static async Task<string> ComeInAsync(Visitor visitor)
    {
        var address = $"{Urls.SingleSignOn}?back=%2Frecipes";
        for (var i = 0; i < 6; i++)
        {
            using var answer = await visitor.GetAsync(address);
            if (answer.StatusCode != HttpStatusCode.Redirect)
            {
                return $"{answer.StatusCode}: {await Visitor.RefusalAsync(answer)}";
            }

            address = answer.Headers.Location!.ToString();
            if (address.EndsWith("/recipes", StringComparison.Ordinal))
            {
                return "/recipes";
            }
        }

        return address;
    }

    private async Task<string> RefusedAsync()
    {
        using var visitor = new Visitor(_room);
        var answer = await ComeInAsync(visitor);
        Assert.Null(await visitor.NameAsync());
        return answer;
    }
}
