using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using PlateTickets.Tests.Shared;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Documents;
using PlateTickets.Tickets.Exchange.Status;
using PlateTickets.Tickets.Tests.Exchange;

namespace PlateTickets.Browser;

/// <summary>Every page at the sizes it must work at: nothing wider than the window, no accessibility violation, nothing from another host.</summary>
public sealed class EveryPageTests(EveryPageTests.Played played) : IClassFixture<EveryPageTests.Played>
{
    public static TheoryData<string, string> Pages => new()
    {
        { "home", "/" }, { "orders", "/orders" }, { "orders-done", "/orders?done=true" }, { "order-form", "/orders/new" }, { "arrived", "/orders/arrived" }, { "import", "/orders/import" }, { "documents", "/orders/documents" }, { "document", "DOCUMENT" }, { "order-status", "STATUS" }, { "layout", "/layout" }, { "stock", "/stock" }, { "stations", "/stations" },
        { "station", "/stations/frame-1" }, { "station-line", "/stations/line-washer" }, { "board-full", "/board" }, { "board-station", "/board?station=Drying" }, { "board-wall-small", "/board?wall=true" }, { "handover", "/handover" }, { "handover-none", "/handover/77" }, { "timeline", "/timeline" }, { "what-if-empty", "/what-if" }, { "recipes", "/recipes" },
        { "recipe", "/recipes/of/1" }, { "settings", "/settings" }, { "audit", "/audit" }, { "program", "/program" }, { "messages-out", "/exchange" }, { "step-tests", "/recipes/step-tests" }, { "step-test", "/recipes/step-tests/1" },
        { "ticket-open", "TICKET" }, { "ticket-history", "TICKET/history" }, { "orders-found", "/orders?search=a" }, { "sheet", "SHEET" }, { "station-dryer", "/stations/dryer?kiosk=true" }, { "station-cutting", "/stations/cutting-table" }, { "not-found", "/nothing-here" }, { "sign-in", "/sign-in" }, { "account", "/account" }, { "not-allowed", "/not-allowed" },
        { "accounts", "/accounts" }, { "keys", "/accounts/keys" }, { "tablets", "/settings/tablets" }, { "set-up", "/set-up" }, { "password", "/password?for=1&code=x" }, { "second-factor", "/sign-in/code" }, { "company-sign-in", "/sign-in/company?failed=true" },
        { "quality", "/quality" }, { "quality-times", "/quality?measure=StageTime&grouping=Shifts" }, { "remakes", "/quality/remakes?from=2026-09-26" }, { "reports", "/reports" },
    };

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_FitsItsWindow_AndIsAccessible(string name, string address)
    {
        address = address switch
        {
            "TICKET" => await played.TicketAsync(),
            "TICKET/history" => await played.TicketAsync() + "/history",
            "SHEET" => await played.SheetAsync(),
            "DOCUMENT" => await played.DocumentAsync(),
            "STATUS" => await played.StatusAsync(),
            _ => address,
        };

        var role = address.StartsWith("/accounts", StringComparison.Ordinal) || address is "/program" or "/exchange" ? Role.Administrator : address.StartsWith("/sign-in", StringComparison.Ordinal) || address.StartsWith("/status", StringComparison.Ordinal) ? Role.None : Role.Manager;
        var page = await played.Browser.OpenAsync(played.Room.Url + address, 1280, 800, role);
        await Assertions.Expect(page.Locator("h1")).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".loading")).ToHaveCountAsync(0);
        foreach (var (width, height) in name.StartsWith("station", StringComparison.Ordinal) || name == "sheet" ? [(1280, 800), (1024, 768), (390, 844)] : new[] { (1280, 800), (1024, 768) })
        {
            await page.SetViewportSizeAsync(width, height);
            var (window, content) = (await page.EvaluateAsync<int>("innerWidth"), await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
            Assert.Equal(width, window);
            Assert.True(content <= width, $"{name} is {content} px wide in a window of {width}.");
            if (width == 1280)
            {
                await Screenshots.TakeAsync(page, name);
                await Axe.CleanAsync(page);
                foreach (var look in new[] { "dark", "yellow" })
                {
                    await Looks.ShowAsync(page, look);
                    if (look == "dark" || name.StartsWith("station", StringComparison.Ordinal))
                    {
                        await Screenshots.TakeAsync(page, $"{name}-{look}");
                    }

                    await Axe.ReadableAsync(page);
                }

                await Looks.ShowAsync(page, "light");
            }

            if (width == 390)
            {
                await Screenshots.TakeAsync(page, name + "-phone");
            }
        }

        Assert.Empty(played.Browser.ForeignRequests);
        await page.Context.CloseAsync();
    }

    [Fact]
    public void Documentation_ShowsEveryPage()
    {
        var shown = File.ReadAllText(Path.Combine(Repository.Root, "docs", "pages.md"));
        Assert.All(Pages.SelectMany(p => new[] { $"{p[0]}", $"{p[0]}-dark" }), name =>
        {
            Assert.Contains($"(screenshots/{name}.png)", shown, StringComparison.Ordinal);
            Assert.True(File.Exists(Path.Combine(Repository.Root, "docs", "screenshots", name + ".png")), $"There is no picture {name}: write it with PLATETICKETS_SCREENSHOTS=1.");
        });
    }

    /// <summary>What is wrong with a page is found, or the checks above would prove nothing.</summary>
    [Fact]
    public async Task PictureWithoutWords_AndPaleText_AreFound()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + "/stock");
        await Assertions.Expect(page.Locator("h1")).ToBeVisibleAsync();
        await Axe.CleanAsync(page);
        await page.EvaluateAsync("document.querySelector('main').insertAdjacentHTML('beforeend', '<img src=\"icons/plate.svg\"><p style=\"color: #bbb; background: #fff\">pale</p>')");
        var found = await Assert.ThrowsAsync<Xunit.Sdk.EmptyException>(() => Axe.CleanAsync(page));
        Assert.Contains("image-alt", found.Message, StringComparison.Ordinal);
        var pale = await Assert.ThrowsAsync<Xunit.Sdk.EmptyException>(() => Axe.ReadableAsync(page));
        Assert.Contains("color-contrast", pale.Message, StringComparison.Ordinal);
        await page.Context.CloseAsync();
    }

    /// <summary>Touch targets of at least 44 px on station pages: gloves.</summary>
    [Fact]
    public async Task StationPage_TouchTargets_AreLargeEnough()
    {
        var page = await played.Browser.OpenAsync(played.Room.Url + "/stations/frame-1", 390, 844);
        await Assertions.Expect(page.Locator(".scan-field")).ToBeFocusedAsync();
        if (await page.Locator(".sheet-card").CountAsync() == 0)
        {
            await page.Locator(".sheet-row").First.ClickAsync();
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Something is wrong" }).ClickAsync();
        await Assertions.Expect(page.Locator(".wrong-panel")).ToBeVisibleAsync();
        var small = await page.EvaluateAsync<string[]>("""
            [...document.querySelectorAll('main button, main a, main input')]
              .filter(e => e.offsetParent !== null)
              .map(e => e.type === 'checkbox' ? e.closest('label') : e)
              .filter(e => { const b = e.getBoundingClientRect(); return b.height < 44 || b.width < 44; })
              .map(e => e.outerHTML.slice(0, 80))
            """);
        Assert.Empty(small);
        await page.Context.CloseAsync();
    }

    public sealed class Played : IAsyncLifetime
    {
        public Chromium Browser { get; } = new();

        internal RoomServer Room { get; private set; } = null!;

        public async Task InitializeAsync()
        {
            await Browser.InitializeAsync();
            Room = await RoomServer.StartAsync("demo");
        }

        public async Task<string> TicketAsync()
        {
            using var http = await Room.ClientAsync(Role.Manager);
            var board = System.Text.Json.JsonDocument.Parse(await http.GetStringAsync("/api/v1/board"));
            return "/tickets/" + board.RootElement.GetProperty("sheets")[0].GetProperty("tickets")[0].GetString();
        }

        /// <summary>A document that somebody must answer.</summary>
        public async Task<string> DocumentAsync()
        {
            var text = XjdfText.Order(press: "", thickness: "1.7", company: "Fernhill Foods", amount: "2", exposed: "Polarity=\"Negative\"");
            var outcome = await Room.Services.GetRequiredService<DocumentDesk>().TakeAsync(new DocumentArrival(DocumentDoor.Http, "Order desk", "order.xjdf", XjdfText.Bytes(text)));
            return $"/orders/documents/{outcome.Document.Id}";
        }

        public async Task<string> StatusAsync() => "/status/" + await Room.Services.GetRequiredService<StatusLinks>().MakeAsync((await TicketAsync())["/tickets/".Length..], "Test");

        public async Task<string> SheetAsync()
        {
            using var http = await Room.ClientAsync(Role.Manager);
            var board = System.Text.Json.JsonDocument.Parse(await http.GetStringAsync("/api/v1/board"));
            return "/sheets/" + board.RootElement.GetProperty("sheets")[0].GetProperty("number").GetString();
        }

        public async Task DisposeAsync()
        {
            await Browser.DisposeAsync();
            await Room.DisposeAsync();
        }
    }
}
