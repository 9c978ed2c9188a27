using System.Net;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web.Shell;
using PlateTickets.Web.Tests.Accounts;

namespace PlateTickets.Web.Tests.Shell;

/// <summary>A look that was chosen stands on the page before anything is drawn.</summary>
public sealed class LookTests(HttpRoom room) : IClassFixture<HttpRoom>
{
    [Theory]
    [InlineData(null, null)]
    [InlineData("light", "light")]
    [InlineData("dark", "dark")]
    [InlineData("yellow", "yellow")]
    [InlineData("device", null)]
    [InlineData("Dark", null)]
    [InlineData("blue", null)]
    [InlineData("dark%22%3E%3Cscript%3E", null)]
    public async Task Cookie_IsTheLookOfThePage(string? cookie, string? look)
    {
        using var visitor = new Visitor(room.Server);
        if (cookie is not null)
        {
            visitor.Cookies.Add(new Uri(room.Server.Url), new Cookie(Look.Cookie, cookie));
        }

        var page = await visitor.PageAsync(Urls.SignIn);
        Assert.Equal(look, page.DocumentElement.GetAttribute("data-look"));
        Assert.Equal(Look.Choices.Select(c => c.Name), page.QuerySelectorAll("[data-look-choice]").Select(r => r.GetAttribute("value")));
    }

    /// <summary>A wall has no keyboard: its address may say the look. Other pages take none from a link.</summary>
    [Theory]
    [InlineData("/board?wall=true&look=dark", "yellow", "dark")]
    [InlineData("/board?wall=true&look=device", "yellow", null)]
    [InlineData("/board?wall=true&look=green", "yellow", "yellow")]
    [InlineData("/board?wall=true", "yellow", "yellow")]
    [InlineData("/board?look=dark", "yellow", "yellow")]
    [InlineData("/orders?wall=true&look=dark", "yellow", "yellow")]
    public async Task Wall_TakesItsLookFromTheAddress(string address, string cookie, string? look)
    {
        using var visitor = await Visitor.AsDemoAsync(room.Server, Role.Manager);
        visitor.Cookies.Add(new Uri(room.Server.Url), new Cookie(Look.Cookie, cookie));
        Assert.Equal(look, (await visitor.PageAsync(address)).DocumentElement.GetAttribute("data-look"));
    }
}
