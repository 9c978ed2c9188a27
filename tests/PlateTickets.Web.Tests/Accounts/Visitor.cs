using System.Net;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Web.Tests.Accounts;

/// <summary>A person with a browser that runs no scripts: pages at the door need none.</summary>
internal sealed class Visitor : IDisposable
{
    private readonly HttpClient _http;

    /// <param name="room">Where.</param>
    /// <param name="cookies">Those of a browser that was elsewhere before; none at first.</param>
    public Visitor(RoomServer room, CookieContainer? cookies = null)
        : this(room.Url, new HttpClientHandler { CookieContainer = cookies ?? new CookieContainer(), AllowAutoRedirect = false })
    {
    }

    public Visitor(string url, HttpClientHandler handler)
    {
        Cookies = handler.CookieContainer;
        _http = new HttpClient(handler) { BaseAddress = new Uri(url) };
    }

    public CookieContainer Cookies { get; }

    public static async Task<Visitor> AsDemoAsync(RoomServer room, Role role)
    {
        var visitor = new Visitor(room);
        using var answer = await visitor.SubmitAsync("/sign-in", $"input[value={role}]", []);
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        return visitor;
    }

    public Task<HttpResponseMessage> GetAsync(string address) => _http.GetAsync(address);

    public Task<HttpResponseMessage> SendAsync(HttpRequestMessage request) => _http.SendAsync(request);

    public async Task<IHtmlDocument> PageAsync(string address) => Parse(await _http.GetStringAsync(address));

    /// <summary>Fills in the form on a page that holds an element, and sends it.</summary>
    public async Task<HttpResponseMessage> SubmitAsync(string address, string within, Dictionary<string, string> typed, bool withToken = true)
    {
        return await SendFormAsync(await PageAsync(address), address, within, typed, withToken);
    }

    /// <summary>The same on a page that is open.</summary>
    public async Task<HttpResponseMessage> SendFormAsync(IHtmlDocument page, string address, string within, Dictionary<string, string> typed, bool withToken = true)
    {
        var form = (IHtmlFormElement)page.QuerySelector(within)!.Closest("form")!;
        var fields = form.QuerySelectorAll("input[type=hidden]").ToDictionary(i => i.GetAttribute("name")!, i => i.GetAttribute("value") ?? "");
        foreach (var (name, value) in typed)
        {
            Assert.NotNull(form.QuerySelector($"input[name='{name}']"));
            fields[name] = value;
        }

        if (!withToken)
        {
            Assert.True(fields.Remove("__RequestVerificationToken"));
        }

        return await _http.PostAsync(form.GetAttribute("action") is { Length: > 0 } action ? action : address, new FormUrlEncodedContent(fields));
    }

    /// <summary>The sentence with which a form was refused.</summary>
    public static async Task<string> RefusalAsync(HttpResponseMessage answer) => Parse(await answer.Content.ReadAsStringAsync()).QuerySelector(".refusals")?.TextContent ?? "";

    /// <summary>Who the account page says is signed in; null when it asks for a sign-in.</summary>
    public async Task<string?> NameAsync()
    {
        using var answer = await GetAsync("/account");
        return answer.StatusCode == HttpStatusCode.OK ? Parse(await answer.Content.ReadAsStringAsync()).QuerySelector("h1")!.TextContent : null;
    }

    public void Dispose() => _http.Dispose();

    public static IHtmlDocument Parse(string html) => new HtmlParser().ParseDocument(html);
}
