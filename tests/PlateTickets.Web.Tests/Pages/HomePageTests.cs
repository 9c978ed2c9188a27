using Bunit;
using PlateTickets.Web.Home;

namespace PlateTickets.Web.Tests.Pages;

public class HomePageTests : BunitContext
{
    [Theory]
    [InlineData("Customer service", Urls.Orders)]
    [InlineData("Operator", Urls.Stations)]
    [InlineData("Plate-room lead", Urls.Recipes)]
    [InlineData("Manager", Urls.Board)]
    public void EachOfTheFourUsers_IsToldWhereToGo(string user, string address)
    {
        JSInterop.Mode = JSRuntimeMode.Loose;
        var page = Render<HomePage>();
        var card = Assert.Single(page.FindAll("a.card"), c => c.QuerySelector("strong")!.TextContent == user);
        Assert.Equal(address, card.GetAttribute("href"));
    }
}
