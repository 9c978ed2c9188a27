using System.Text.RegularExpressions;
using Microsoft.Playwright;
using PlateTickets.Browser.Pages;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;

namespace PlateTickets.Browser;

/// <summary>The server is killed with SIGKILL under a form that somebody fills in, and comes back.</summary>
public sealed partial class LostCircuitTests(Chromium chromium) : IClassFixture<Chromium>, IAsyncLifetime
{
    private readonly string _data = Directory.CreateTempSubdirectory("plate-room-").FullName;
    private ProgramProcess _server = null!;

    public async Task InitializeAsync()
    {
        await RoomServer.PutAsync("demo", _data);
        _server = new ProgramProcess("--data", _data);
        await _server.StartAsync();
    }

    public async Task DisposeAsync()
    {
        await _server.DisposeAsync();
        Directory.Delete(_data, recursive: true);
    }

    [GeneratedRegex("\"pressId\":[1-9]")]
    private static partial Regex PressChosen();

    [Fact]
    public async Task HalfAnOrder_IsThereAgain_WithWhatWasTypedWithoutTheServer()
    {
        var page = await chromium.OpenAsync($"{_server.Url}/orders/new", role: Role.Csr);
        var order = new NewOrderPageObject(page);
        await order.FillAsync("Northmere Dairy", "Butter foil", "Press 2, labels");
        // What is chosen is kept by the page a moment later, what is typed by the browser at once.
        for (var i = 0; !PressChosen().IsMatch(await page.EvaluateAsync<string>("Object.keys(sessionStorage).map(key => sessionStorage.getItem(key)).join()")); i++)
        {
            Assert.True(i < 400, "The press that was chosen is not kept.");
            await Task.Delay(50);
        }

        await page.GetByLabel("Copies of each").FillAsync("2");
        await page.GetByLabel("Due time").FillAsync("16:45");
        await page.GetByLabel("Title of the job").ClickAsync();
        await page.Keyboard.PressAsync("End");
        await page.Keyboard.TypeAsync(" 250 g");

        await _server.KillAsync();
        await page.Keyboard.TypeAsync(", second run");
        await Assertions.Expect(page.GetByRole(AriaRole.Alertdialog)).ToContainTextAsync("The connection to the server is lost.");
        await Assertions.Expect(page.GetByRole(AriaRole.Alertdialog)).ToBeVisibleAsync();
        await page.Keyboard.TypeAsync(" of May");
        await _server.StartAsync();

        // Nobody touches the page: it comes back by itself.
        await Assertions.Expect(page.GetByText("What was entered here and not saved is here again.")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alertdialog)).ToBeHiddenAsync();
        await Assertions.Expect(page.GetByLabel("Customer", new() { Exact = true })).ToHaveValueAsync("Northmere Dairy");
        await Assertions.Expect(page.GetByLabel("Title of the job")).ToHaveValueAsync("Butter foil 250 g, second run of May");
        await Assertions.Expect(page.GetByLabel("Due time")).ToHaveValueAsync("16:45");
        await Assertions.Expect(page.GetByLabel("Copies of each")).ToHaveValueAsync("2");
        await Assertions.Expect(page.GetByRole(AriaRole.Combobox, new() { Name = "Press", Exact = true })).ToHaveValueAsync("Press 2, labels");

        // It is saved as if nothing had been, for the customer that is known, and the form is empty then.
        await page.GetByRole(AriaRole.Button, new() { Name = "Save, files follow" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Butter foil 250 g, second run of May" })).ToBeVisibleAsync();
        await page.GotoAsync($"{_server.Url}/orders/new");
        await Assertions.Expect(page.GetByLabel("Title of the job")).ToHaveValueAsync("");
        await Assertions.Expect(page.GetByText("What was entered here")).ToHaveCountAsync(0);
        await page.Context.CloseAsync();
    }
}
