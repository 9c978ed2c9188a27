using Microsoft.Playwright;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Browser;

/// <summary>The system's Chromium, one for all tests of a class.</summary>
public sealed class Chromium : IAsyncLifetime
{
    private const string ShiftKey = "test-clock-shift";

    private IPlaywright? _playwright;
    private readonly Dictionary<(string Room, Role Role), string> _sessions = [];
    private IBrowser? _browser;

    public async Task InitializeAsync()
    {
        var path = new[] { "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome" }.FirstOrDefault(File.Exists)
            ?? throw new InvalidOperationException("This test needs Chromium: install the Debian package chromium.");
        // A cold server on a busy machine takes its time: what is awaited must come, how fast is measured elsewhere.
        Assertions.SetDefaultExpectTimeout(20_000);
        _playwright = await Playwright.CreateAsync();
        _browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = path,
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync",
            ],
        });
    }

    /// <summary>A new browser of its own kind: cookies and storage are not shared with another one.</summary>
    /// <param name="url">The page.</param>
    /// <param name="width">In px.</param>
    /// <param name="height">In px.</param>
    /// <param name="role">Which of the demo's people signs in; none for nobody.</param>
    public async Task<IPage> OpenAsync(string url, int width = 1280, int height = 800, Role role = Role.Manager)
    {
        var room = new Uri(url).GetLeftPart(UriPartial.Authority);
        var context = await _browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = height },
            Locale = "en-GB",
            StorageState = role == Role.None ? null : await SignedInAsync(room, role),
        });
        context.SetDefaultTimeout(15_000);
        var page = await context.NewPageAsync();
        var foreign = new List<string>();
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(room, StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
            {
                foreign.Add(request.Url);
            }
        };
        ForeignRequests = foreign;
        await page.AddInitScriptAsync($$"""
            const real = Date.now.bind(Date);
            Date.now = () => real() + Number(sessionStorage.getItem('{{ShiftKey}}') ?? 0);
            """);
        await page.GotoAsync(url);
        return page;
    }

    // Signing in is a test of its own; the others take the cookie of the first time.
    private async Task<string> SignedInAsync(string room, Role role)
    {
        if (!_sessions.TryGetValue((room, role), out var state))
        {
            await using var context = await _browser!.NewContextAsync();
            var page = await context.NewPageAsync();
            await page.GotoAsync($"{room}/sign-in?back=/account");
            await page.GetByRole(AriaRole.Button, new() { Name = role.Title(), Exact = true }).ClickAsync();
            await Assertions.Expect(page).ToHaveURLAsync($"{room}/account");
            _sessions[(room, role)] = state = await context.StorageStateAsync();
        }

        return state;
    }

    /// <summary>Sets the clock of a page's tablet; it goes on from there.</summary>
    public static Task SetClockAsync(IPage page, DateTimeOffset to) =>
        page.EvaluateAsync($"sessionStorage.setItem('{ShiftKey}', {(to - DateTimeOffset.UtcNow).TotalMilliseconds.ToString("0", System.Globalization.CultureInfo.InvariantCulture)})");

    /// <summary>What the page opened last asked of another host: must stay empty.</summary>
    public IReadOnlyList<string> ForeignRequests { get; private set; } = [];

    public async Task DisposeAsync()
    {
        if (_browser is not null)
        {
            await _browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }
}
