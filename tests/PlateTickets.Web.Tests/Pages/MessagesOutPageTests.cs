using Bunit;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PlateTickets.Tickets.Accounts;
using PlateTickets.Tickets.Exchange.Sending;
using PlateTickets.Web.Exchange;
using PlateTickets.Web.Exchange.Mail;
using PlateTickets.Web.Orders;
using PlateTickets.Web.Shell;
using PlateTickets.Web.Tests.Exchange;

namespace PlateTickets.Web.Tests.Pages;

public sealed class MessagesOutPageTests : PageTest
{
    [Fact]
    public void WithoutAnything_ThePageSaysSo()
    {
        var page = Render<MessagesOutPage>();
        page.WaitForElement(".tabs");
        foreach (var words in new[] { "No message waits.", "No program is told yet.", "no mail server is set" })
        {
            Assert.Contains(words, page.Markup, StringComparison.Ordinal);
        }

        Assert.Empty(page.FindAll(".flag.bad"));
    }

    [Fact]
    public async Task Webhook_IsMade_ItsSecretShownOnce_Tested_Paused_AndRemoved()
    {
        await using var receiver = await Receiver.StartAsync();
        var page = Render<MessagesOutPage>();
        await PressAsync(page, "Make the webhook");
        page.WaitForAssertion(() => Assert.Contains("Give the webhook a name", page.Find(".refusals").TextContent, StringComparison.Ordinal));
        await TypeAsync(page, "Which program", "Mill");
        await TypeAsync(page, "Its address for messages", "http://10.0.0.7/hook");
        await page.InvokeAsync(() => page.FindAll("fieldset.kinds label").Single(l => l.TextContent.Trim() == "finished").QuerySelector("input")!.Change(true));
        await PressAsync(page, "Make the webhook");
        page.WaitForAssertion(() => Assert.Contains("use https://", page.Find(".refusals").TextContent, StringComparison.Ordinal));
        await TypeAsync(page, "Its address for messages", receiver.Url);
        await PressAsync(page, "Make the webhook");
        page.WaitForAssertion(() => Assert.StartsWith("whsec_", page.Find("section.once code").TextContent, StringComparison.Ordinal));
        var first = page.Find("section.once code").TextContent;
        await PressAsync(page, "Done");
        Assert.DoesNotContain(first, page.Markup, StringComparison.Ordinal);
        Assert.Contains("finished", page.Find("td.kinds").TextContent, StringComparison.Ordinal);

        await PressAsync(page, "Send a test");
        page.WaitForAssertion(() => Assert.Equal("The test arrived at Mill. The receiver answered 200.", page.Find(".applied").TextContent));
        receiver.Answer = context =>
        {
            context.Response.StatusCode = 401;
            return Task.CompletedTask;
        };
        await PressAsync(page, "Send a test");
        page.WaitForAssertion(() => Assert.Equal("The test did not arrive at Mill. The receiver answered 401.", page.Find(".refusals").TextContent));

        await PressAsync(page, "New secret");
        page.WaitForAssertion(() => Assert.NotEqual(first, page.Find("section.once code").TextContent));
        await PressAsync(page, "Pause");
        page.WaitForAssertion(() => Assert.Contains("Paused by Tester.", page.Find("tr.off").TextContent, StringComparison.Ordinal));
        await PressAsync(page, "Go on");
        page.WaitForAssertion(() => Assert.Empty(page.FindAll("tr.off")));
        await PressAsync(page, "Remove");
        await PressAsync(page, "Keep it");
        await PressAsync(page, "Remove");
        await PressAsync(page, "Remove it");
        page.WaitForAssertion(() => Assert.Contains("No program is told yet.", page.Markup, StringComparison.Ordinal));
    }

    [Fact]
    public async Task GivenUpMessages_AreShownWithTheirReason_AndSentAgain()
    {
        var ticket = await Room.OrderAsync(["Cyan"]);
        await using (var db = Room.CreateDbContext())
        {
            var events = await db.TicketEvents.Where(e => e.TicketId == ticket.Order.Id).Take(1).ToListAsync();
            for (var i = 1; i <= 3; i++)
            {
                db.Deliveries.Add(new Delivery
                {
                    Kind = DeliveryKind.Webhook,
                    EventId = events[0].Id,
                    ReceiverId = i,
                    To = $"https://mis-{i}.example/",
                    State = DeliveryState.Dead,
                    Attempts = 10,
                    MadeUtc = Room.Now,
                    NextUtc = Room.Now,
                    Answer = "The receiver answered 500.",
                });
            }

            await db.SaveChangesAsync();
        }

        Services.GetRequiredService<NavigationManager>().NavigateTo(Urls.MessagesOutOf("given-up"));
        var page = Render<MessagesOutPage>();
        page.WaitForAssertion(() => Assert.Equal(3, page.FindAll("table.messages tbody tr").Count));
        var row = page.Find("table.messages tbody tr");
        foreach (var words in new[] { "order entered", "Test job", "10", "The receiver answered 500.", "a removed webhook" })
        {
            Assert.Contains(words, row.TextContent, StringComparison.Ordinal);
        }

        await PressAsync(page, "Send again");
        page.WaitForAssertion(() => Assert.Equal(2, page.FindAll("table.messages tbody tr").Count));
        await PressAsync(page, "Send all to https://mis-1.example/ again");
        page.WaitForAssertion(() => Assert.Equal("1 message to https://mis-1.example/ waits again.", page.Find(".applied").TextContent));
        Assert.Equal(new DeliveryCounts(2, 1, 0), await Services.GetRequiredService<DeliveryBook>().CountAsync());
    }

    [Fact]
    public void WithoutTheRight_NothingIsShown()
    {
        Services.GetRequiredService<Viewer>().SignedIn("Olga", Rights.Of(Role.Operator));
        var page = Render<MessagesOutPage>();
        Assert.Contains("may not do this here", page.WaitForElement(".refusals").TextContent, StringComparison.Ordinal);
        Assert.Empty(page.FindAll("button"));
    }

    [Fact]
    public async Task CustomersContact_IsSavedOnTheTicket()
    {
        var ticket = await Room.OrderAsync(["Cyan"]);
        var page = Render<TicketPage>(p => p.Add(x => x.Number, ticket.Order.Number));
        page.WaitForAssertion(() => Assert.Contains("nobody is told", page.Find(".for-customer summary").TextContent, StringComparison.Ordinal));
        await TypeAsync(page, "Mail address that is told", "buyer at northmere");
        await page.InvokeAsync(() => page.Find(".for-customer button.go").Click());
        page.WaitForAssertion(() => Assert.Contains("is not one mail address", page.Find(".for-customer .refusals").TextContent, StringComparison.Ordinal));
        await TypeAsync(page, "Mail address that is told", "buyer@northmere.example");
        await TypeAsync(page, "The customer’s reference", "PO 4711");
        await page.InvokeAsync(() => page.Find(".for-customer button.go").Click());
        page.WaitForAssertion(() => Assert.Contains("buyer@northmere.example is told; their reference is PO 4711", page.Find(".for-customer summary").TextContent, StringComparison.Ordinal));
        Assert.Equal("buyer@northmere.example", (await Room.Orders.FindAsync(ticket.Order.Number))!.Order.ContactMail);
    }

    private static Task PressAsync<T>(IRenderedComponent<T> page, string words)
        where T : IComponent
    {
        page.WaitForState(() => page.FindAll("button").Any(b => b.TextContent.Trim() == words && !b.HasAttribute("disabled")));
        return page.InvokeAsync(() => page.FindAll("button").First(b => b.TextContent.Trim() == words).Click());
    }

    private static Task TypeAsync<T>(IRenderedComponent<T> page, string label, string text)
        where T : IComponent =>
        page.InvokeAsync(() => page.FindAll("label").Single(l => l.TextContent.Trim() == label).QuerySelector("input")!.Change(text));
}

public sealed class MessagesOutPageWithSettingsTests : PageTest
{
    protected override ExchangeOptions Exchange => new() { Sends = false };

    protected override MailOptions Mail => new() { Server = "smtp.plant.example", From = "plates@plant.example" };

    [Fact]
    public void SettingThatKeepsMessagesBack_AndMail_AreShown()
    {
        var page = Render<MessagesOutPage>();
        Assert.Contains("Nothing is sent", page.WaitForElement(".flag.bad").TextContent, StringComparison.Ordinal);
        Assert.Contains("smtp.plant.example:587 from plates@plant.example", page.Markup, StringComparison.Ordinal);
    }
}
