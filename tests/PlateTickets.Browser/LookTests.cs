using Microsoft.Playwright;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Web;

namespace PlateTickets.Browser;

/// <summary>A person chooses a look; a device says one.</summary>
public sealed class LookTests(EveryPageTests.Played played) : IClassFixture<EveryPageTests.Played>
{
    // --paper of css/look.css
    private const string Light = "rgb(244, 242, 236)";
    private const string Dark = "rgb(17, 24, 27)";
    private const string Yellow = "rgb(20, 14, 4)";

    [Fact]
    public async Task Choice_ChangesThePageAtOnce_KeepsWhatIsTyped_AndStays()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + Urls.NewOrder);
        var title = page.GetByLabel("Title of the job");
        await title.FillAsync("Half a word");
        await ChooseAsync(page, "Dark");
        Assert.Equal(Dark, await Looks.GroundAsync(page));
        // The component library's parts go along, although the server knows nothing of it.
        Assert.Equal("rgb(236, 232, 221)", await title.EvaluateAsync<string>("e => getComputedStyle(e).color"));
        await Assertions.Expect(title).ToHaveValueAsync("Half a word");
        var cookie = Assert.Single(await page.Context.CookiesAsync(), c => c.Name == "plate-look");
        Assert.Equal(("dark", "/", SameSiteAttribute.Lax), (cookie.Value, cookie.Path, cookie.SameSite));
        Assert.InRange(DateTimeOffset.FromUnixTimeSeconds((long)cookie.Expires) - DateTimeOffset.UtcNow, TimeSpan.FromDays(364), TimeSpan.FromDays(366));

        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("html")).ToHaveAttributeAsync("data-look", "dark");
        Assert.Equal(Dark, await Looks.GroundAsync(page));
        await Menu(page).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Radio, new() { Name = "Dark" })).ToBeCheckedAsync();

        await page.GetByRole(AriaRole.Radio, new() { Name = "As this device says" }).CheckAsync();
        Assert.Equal(Light, await Looks.GroundAsync(page));
        Assert.DoesNotContain(await page.Context.CookiesAsync(), c => c.Name == "plate-look");
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task DevicesOwnSetting_IsFollowed_UntilSomebodyChooses_AndPaperIsLight()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + Urls.Home);
        await Assertions.Expect(page.Locator("h1")).ToBeVisibleAsync();
        Assert.Equal(Light, await Looks.GroundAsync(page));
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        Assert.Equal(Dark, await Looks.GroundAsync(page));
        await ChooseAsync(page, "Yellow light");
        Assert.Equal(Yellow, await Looks.GroundAsync(page));
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        Assert.Equal(Light, await Looks.GroundAsync(page));
        await page.EmulateMediaAsync(new() { Media = Media.Screen });
        await page.GetByRole(AriaRole.Radio, new() { Name = "Light", Exact = true }).CheckAsync();
        Assert.Equal(Light, await Looks.GroundAsync(page));
        await page.Context.CloseAsync();
    }

    /// <summary>A tablet at a station is set before anybody signs in; the page there has no connection of its own.</summary>
    [Fact]
    public async Task Door_HasTheChoiceToo()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + Urls.SignIn, role: Role.None);
        await page.Locator(".bar .me summary").ClickAsync();
        await page.GetByRole(AriaRole.Radio, new() { Name = "Yellow light" }).CheckAsync();
        Assert.Equal(Yellow, await Looks.GroundAsync(page));
        await page.Keyboard.PressAsync("Escape");
        await Assertions.Expect(page.Locator(".bar .looks")).ToBeHiddenAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = Role.Operator.Title(), Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".bar nav")).ToBeVisibleAsync();
        Assert.Equal(Yellow, await Looks.GroundAsync(page));
        await page.Context.CloseAsync();
    }

    [Fact]
    public async Task Wall_IsShownAsItsAddressSays()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + Urls.BoardWith(wall: true, look: "dark"), 1920, 1080);
        await Assertions.Expect(page.Locator(".wall-board")).ToBeVisibleAsync();
        Assert.Equal(Dark, await page.Locator(".wall-board").EvaluateAsync<string>("e => getComputedStyle(e).backgroundColor"));
        await page.Context.CloseAsync();
    }

    /// <summary>Pages are drawn by the server over a connection: until it stands, the page says what it waits for.</summary>
    [Fact]
    public async Task Start_SaysThatItConnects()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + Urls.Home);
        await Assertions.Expect(page.Locator("h1")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("#starting")).ToBeHiddenAsync();
        await page.RouteAsync("**/_framework/blazor.web*.js", route => route.AbortAsync());
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("#starting")).ToHaveTextAsync("Connecting to the server …");
        await Assertions.Expect(page.Locator("#starting")).ToBeVisibleAsync();
        await page.Context.CloseAsync();
    }

    private static ILocator Menu(IPage page) => page.Locator(".bar details.me:not(.pages) summary");

    private static async Task ChooseAsync(IPage page, string look)
    {
        await Menu(page).ClickAsync();
        await page.GetByRole(AriaRole.Radio, new() { Name = look, Exact = true }).CheckAsync();
    }
}
